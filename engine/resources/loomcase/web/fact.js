// Between what a form holds and a line as a case file holds it, both ways.
import { casePath, getText } from "/api.js";

const NUMBER = /^[+-]?\d+([.,]\d+)?$/;
export const UNITS = { volts: [["V", "V"], ["mV", "mV"]], ohms: [["ohm", "ohm"], ["kohm", "kohm"], ["Mohm", "Mohm"]] };

// A number keeps the digits that were typed: it travels as a marked text until the request is written.
function digits(text, what) {
  const t = (text || "").trim();
  if (!NUMBER.test(t)) throw { message: what };
  return "@n:" + t.replace(",", ".").replace(/^\+/, "").replace(/^(-?)0+(?=\d)/, "$1") + "@";
}
export const written = (value) => JSON.stringify(value).replace(/"@n:(-?[0-9]+(?:[.][0-9]+)?)@"/g, "$1");

export const unitsOf = (meter) => (meter === "ohms" || meter === "isolation" ? UNITS.ohms : UNITS.volts);
const listed = (text) => (text || "").split(",").map((t) => t.trim()).filter(Boolean);

function place(text, what, such = "connector:C1") {
  const at = (text || "").indexOf(":");
  if (at < 1) throw { message: "say " + what + ": choose one from the list, such as " + such };
  const kind = text.slice(0, at);
  const id = text.slice(at + 1).trim();
  if (kind !== "rub-point") return { kind, id };
  const [branch, rubPoint] = id.split("@");
  if (!rubPoint) throw { message: "name a rub point with its branch, such as rub-point:B1@R1" };
  return { kind: "branch", id: branch, rubPoint };
}

function codeList(text) {
  return listed(text === "none" ? "" : text).map((c) => {
    const m = /^(\d+)\/(\d+)$/.exec(c);
    if (!m) throw { message: "'" + c + "' is not a code; write SPN/FMI, such as 110/3" };
    return { spn: Number(m[1]), fmi: Number(m[2]) };
  });
}

function setup(d) {
  if (!d.at) throw { message: "say how the engine stood: key off, or an operating point" };
  const s = { operatingPoint: d.at };
  if (d.at !== "key-off" && d.phase) s.phase = d.phase;
  const apart = listed(d.unplugged);
  if (apart.length) s.unplugged = apart;
  if (d.jumpers && d.jumpers.length) s.jumpers = d.jumpers;
  if ((d.celsius || "").trim()) s.wireCelsius = digits(d.celsius, "temperature of the wires: degrees Celsius, such as 20");
  return s;
}

// The fact as a line of a case holds it; a value keeps the digits that were typed.
export function fact(d) {
  const note = (d.note || "").trim();
  switch (d.kind) {
    case "reading": {
      const f = { kind: "reading", test: d.meter || "volts", a: (d.a || "").trim(), b: (d.b || "").trim() };
      if (d.open) f.value = "open";
      else {
        f.value = digits(d.value, "type what the meter showed, such as 4.98, or choose 'open'");
        f.unit = d.unit || unitsOf(f.test)[0][0];
      }
      f.setup = setup(d);
      const meter = meterOf(d);
      if (Object.keys(meter).length) f.meter = meter;
      return f;
    }
    case "seen": return { kind: "seen", place: place(d.place, "where you looked"), finding: d.finding || "clean", ...(note && { note }) };
    case "moved": return { kind: "moved", action: d.action || "wiggle", place: place(d.place, "what was moved"), response: d.response === "yes", ...(note && { what: note }), setup: setup(d) };
    case "watched": return { kind: "watched", method: d.method || "unplug", setup: setup(d), active: codeList(d.active || "none") };
    case "swapped": return { kind: "swapped", part: place(d.part, "the suspected part", "device:ECT"), with: place(d.with, "its like, with which it was swapped", "device:ECT"), codes: d.outcome || "followed", ...(note && { note }) };
    case "gauged": return { kind: "gauged", part: place(d.part, "the sensor that reports it", "device:OPS"), condition: condition(d.condition), ...(note && { note }) };
    case "access": if (!d.step) throw { message: "choose the step: what is taken off or put back" };
      return { kind: d.way === "close" ? "closed-access" : "opened-access", step: d.step };
    case "work": return { kind: "work", what: d.deed || "repaired", ...(d.deed !== "cleared-codes" && { place: place(d.place, "where it was done") }), ...(note && { note }),
      ...((d.minutes || "").trim() && { minutes: digits(d.minutes, "minutes: a number, such as 25") }) };
    case "part": return { kind: "part", name: (d.name || "").trim(), ...((d.number || "").trim() && { number: d.number.trim() }), quantity: digits(d.quantity || "1", "quantity: a number"),
      ...((d.price || "").trim() && { price: digits(d.price, "price: an amount, such as 4.50") }), role: d.role || "used", sort: d.sort || "other", ...((d.place || "").trim() && { place: place(d.place, "where") }) };
    case "kept": return { kind: "kept", part: (d.name || "").trim(), tag: (d.tag || "").trim(), where: note };
    case "chose": return { kind: "chose", option: chosen(d.option), place: place(d.place, "the place that failed"), ...(note && { reason: note }), ...(d.damage && { damage: d.damage }), ...(d.alsoOption && { also: { option: d.alsoOption, place: place(d.alsoPlace, "the second place that failed") } }) };
    case "approved": return { kind: "approved", what: note, ...((d.approver || "").trim() && { approver: d.approver.trim() }), ...((d.number || "").trim() && { number: d.number.trim() }), ...((d.date || "").trim() && { date: d.date.trim() }) };
    case "opened": return { kind: "opened", circuit: d.circuit, complaint: (d.complaint || "").trim(), ...machine(d) };
    case "photo": return { kind: "photo", file: d.file, fileDigest: d.fileDigest, view: d.view, shows: note, ...((d.place || "").trim() && { place: place(d.place, "where") }) };
    case "refused": return { kind: "refused", test: (d.test || "").trim(), reason: note };
    default: return { kind: "note", text: note };
  }
}

function condition(id) {
  if (!id) throw { message: "say how the engine itself was" };
  return id;
}

function chosen(option) {
  if (!option) throw { message: "say which way was chosen" };
  return option;
}

function meterOf(d) {
  const m = {};
  if ((d.meterName || "").trim()) m.name = d.meterName.trim();
  if ((d.inputOhms || "").trim()) m.inputOhms = digits(d.inputOhms, "resistance of the meter: ohms, such as 10000000");
  if ((d.leadZero || "").trim()) m.leadZeroOhms = digits(d.leadZero, "leads held together: ohms, such as 0.2");
  return m;
}

// What an opening says of the machine; what is empty is not said.
export function machine(d) {
  const m = {};
  for (const k of ["unit", "serial", "inService", "distance"]) if ((d[k] || "").trim()) m[k] = d[k].trim();
  if ((d.hours || "").trim()) m.hours = digits(d.hours, "engine hours: a number, such as 5210");
  return m;
}

export const placeText = (p) => (!p ? "" : p.rubPoint ? "rub-point:" + p.id + "@" + p.rubPoint : p.kind + ":" + p.id);

const text = (x) => (x === undefined || x === null ? "" : String(x));
const list = (codes) => codes.map((c) => c.spn + "/" + c.fmi + (c.count !== undefined ? "x" + c.count : "")).join(", ");
const setupDraft = (s) => ({ at: s.operatingPoint, phase: s.phase || "", unplugged: (s.unplugged || []).join(", "), jumpers: s.jumpers || [], celsius: text(s.wireCelsius) });

// The inverse of fact(): what the form holds when it says what a line says.
export function draftOf(f) {
  const d = { kind: f.kind, note: text(f.note || f.text || f.shows || f.reason), place: placeText(f.place) };
  switch (f.kind) {
    case "reading": {
      if (!f.setup) return d;
      const m = f.meter || {};
      return { ...d, meter: f.test, a: f.a, b: f.b, open: f.value === "open", value: f.value === "open" ? "" : text(f.value), unit: f.unit,
        meterName: text(m.name), inputOhms: text(m.inputOhms), leadZero: text(m.leadZeroOhms), ...setupDraft(f.setup) };
    }
    case "seen": return { ...d, finding: f.finding };
    case "moved": return { ...d, action: f.action, response: f.response ? "yes" : "no", note: text(f.what), ...setupDraft(f.setup) };
    case "watched": return { ...d, method: f.method, active: list(f.active) || "none", ...setupDraft(f.setup) };
    case "swapped": return { ...d, part: placeText(f.part), with: placeText(f.with), outcome: f.codes };
    case "gauged": return { ...d, part: placeText(f.part), condition: f.condition };
    case "codes": {
      if (!f.codes) return d;
      const of = (state) => list(f.codes.filter((c) => c.state === state)) || "none";
      return { ...d, source: "typed", active: of("active"), stored: of("stored"), points: f.operatingPoints || [] };
    }
    case "opened-access": case "closed-access": return { ...d, kind: "access", way: f.kind === "closed-access" ? "close" : "open", step: f.step };
    case "work": return { ...d, deed: f.what, minutes: text(f.minutes) };
    case "part": return { ...d, name: f.name, number: text(f.number), quantity: text(f.quantity), price: text(f.price), role: f.role, sort: f.sort };
    case "kept": return { ...d, name: f.part, tag: text(f.tag), note: text(f.where) };
    case "chose": return { ...d, option: f.option, damage: f.damage || "", ...(f.also && { alsoOption: f.also.option, alsoPlace: placeText(f.also.place) }) };
    case "approved": return { ...d, note: text(f.what), approver: text(f.approver), number: text(f.number), date: text(f.date) };
    case "refused": return { ...d, test: f.test };
    case "opened": return { ...d, circuit: f.circuit, complaint: f.complaint, unit: text(f.unit), hours: text(f.hours), serial: text(f.serial), inService: text(f.inService), distance: text(f.distance) };
    case "photo": return { ...d, file: f.file, fileDigest: f.fileDigest, view: f.view };
    default: return d;
  }
}

// What a line says as a form holds it. Numbers keep the digits in which they were written.
async function lineDraft(name, n) {
  const raw = await getText(casePath(name, "/line") + "?n=" + n);
  return draftOf(JSON.parse(raw.replace(/("(?:value|quantity|price)":)(-?[0-9]+(?:[.][0-9]+)?)(?=[,}])/g, '$1"$2"')));
}

// The form for a line that is to be recorded, filled in as far as known; a line with neither number is all new.
export async function form({ name, line, otherwise, back }) {
  const d = line.corrects || line.like ? await lineDraft(name, line.corrects || line.like) : draftOf({ ...line.known, kind: line.kind, place: line.place || otherwise });
  if (line.corrects) d.corrects = line.corrects;
  else if (line.like) { d.value = ""; d.open = false; d.leadZero = ""; }
  return { ...d, back };
}
