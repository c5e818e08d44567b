// Recording: one form a kind of line, and what happens when the case has grown meanwhile.
import { useState } from "/lib/hooks.js";
import { casePath, postJson, postLog, postPhoto, query } from "/api.js";
import { Choice, html, Many, Problem, Select, Text, useName } from "/parts.js";

const KINDS = [["reading", "Meter reading"], ["seen", "Look"], ["moved", "Wiggle"], ["watched", "Unplug and watch"], ["swapped", "Swap"],
  ["codes", "Codes"], ["access", "Access"], ["work", "Work done"], ["refused", "Test refused"], ["photo", "Photo"], ["part", "Part used"], ["kept", "Part kept"],
  ["chose", "Way chosen"], ["approved", "Approval"], ["note", "Note"]];
export const METERS = [["volts", "Volts"], ["ohms", "Ohms"], ["drop", "Volts lost under load"], ["isolation", "Isolation"]];
const UNITS = { volts: [["V", "V"], ["mV", "mV"]], ohms: [["ohm", "ohm"], ["kohm", "kohm"], ["Mohm", "Mohm"]] };
export const DEEDS = [["repaired", "Repaired"], ["replaced", "Replaced"], ["reseated", "Reseated"], ["cleaned", "Cleaned"], ["rerouted", "Rerouted"], ["cleared-codes", "Cleared codes"]];
const NUMBER = /^[+-]?\d+([.,]\d+)?$/;
const OPTIONS = ["monitor", "reseat", "terminal", "pigtail", "splice-repair", "overlay-wire", "branch-section", "full-harness", "fuse", "device", "control-unit"];
const SORTS = ["wire", "terminal", "section", "harness", "device", "control-unit", "fuse", "other"];
const VIEWS = [["overview", "Where on the machine"], ["close-up", "The damage, with a scale"], ["cavities", "Cavities of a plug"], ["repair", "The repair"], ["tag", "A kept part with its tag"]];
const plain = (w) => [w, w.replace(/-/g, " ")];

// A number keeps the digits that were typed: it travels as a marked text until the request is written.
function digits(text, what) {
  const t = (text || "").trim();
  if (!NUMBER.test(t)) throw { message: what };
  return "@n:" + t.replace(",", ".").replace(/^\+/, "").replace(/^(-?)0+(?=\d)/, "$1") + "@";
}
const written = (value) => JSON.stringify(value).replace(/"@n:(-?[0-9]+(?:[.][0-9]+)?)@"/g, "$1");

const unitsOf = (meter) => (meter === "ohms" || meter === "isolation" ? UNITS.ohms : UNITS.volts);
const listed = (text) => (text || "").split(",").map((t) => t.trim()).filter(Boolean);

function place(text, what) {
  const at = (text || "").indexOf(":");
  if (at < 1) throw { message: "say " + what + ": choose one from the list, such as connector:C1" };
  const kind = text.slice(0, at);
  return { kind, id: text.slice(at + 1).trim() };
}

function codes(text) {
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
      return f;
    }
    case "seen": return { kind: "seen", place: place(d.place, "where you looked"), finding: d.finding || "clean", ...(note && { note }) };
    case "moved": return { kind: "moved", action: d.action || "wiggle", place: place(d.place, "what was moved"), response: d.response === "yes", ...(note && { what: note }), setup: setup(d) };
    case "watched": return { kind: "watched", method: d.method || "unplug", setup: setup(d), active: codes(d.active || "none") };
    case "swapped": return { kind: "swapped", part: place(d.part, "the suspected part"), with: place(d.with, "its neighbour"), codes: d.outcome || "followed", ...(note && { note }) };
    case "access": return { kind: d.way === "close" ? "closed-access" : "opened-access", step: d.step };
    case "work": return { kind: "work", what: d.deed || "repaired", ...(d.deed !== "cleared-codes" && { place: place(d.place, "where it was done") }), ...(note && { note }),
      ...((d.minutes || "").trim() && { minutes: digits(d.minutes, "minutes: a number, such as 25") }) };
    case "part": return { kind: "part", name: (d.name || "").trim(), ...((d.number || "").trim() && { number: d.number.trim() }), quantity: digits(d.quantity || "1", "quantity: a number"),
      ...((d.price || "").trim() && { price: digits(d.price, "price: an amount, such as 4.50") }), role: d.role || "used", sort: d.sort || "other", ...((d.place || "").trim() && { place: place(d.place, "where") }) };
    case "kept": return { kind: "kept", part: (d.name || "").trim(), tag: (d.tag || "").trim(), where: note };
    case "chose": return { kind: "chose", option: d.option || "splice-repair", place: place(d.place, "where"), ...(note && { reason: note }) };
    case "approved": return { kind: "approved", what: note, ...((d.approver || "").trim() && { approver: d.approver.trim() }), ...((d.number || "").trim() && { number: d.number.trim() }) };
    case "refused": return { kind: "refused", test: (d.test || "").trim(), reason: note };
    default: return { kind: "note", text: note };
  }
}

export function Record({ name, open, setup: start, draft, setDraft, recorded, load }) {
  const d = { kind: "reading", ...draft };
  const set = (field) => (value) => setDraft({ ...d, [field]: value });
  const [by, setBy] = useName(start && start.user);
  const [file, setFile] = useState(null);
  const [problem, setProblem] = useState("");
  const [odd, setOdd] = useState("");
  const [busy, setBusy] = useState(false);

  async function save(confirm) {
    setProblem("");
    setOdd("");
    setBusy(true);
    try {
      let r;
      if (d.kind === "codes" && d.source === "log") {
        if (!file) throw { message: "choose the log file" };
        r = await postLog(casePath(name, "/log") + query({ last: open.last, by, at: (d.points || []).join(",") }), file);
      } else if (d.kind === "codes") {
        const none = (t) => ((t || "").trim() === "none" ? "" : (t || "").trim());
        if (!(d.active || "").trim() && !(d.stored || "").trim()) throw { message: "type the codes that were read; put 'none' when there were none" };
        r = await postJson(casePath(name, "/codes"), { last: open.last, by, active: none(d.active), stored: none(d.stored), at: d.points || [] });
      } else if (d.kind === "photo") {
        if (!file) throw { message: "choose or take the picture" };
        r = await postPhoto(casePath(name, "/photo") + query({ last: open.last, by, view: d.view || "close-up", shows: d.note, place: (d.place || "").trim() }), file);
      } else r = await postJson(casePath(name, "/lines"), written({ last: open.last, by, confirm, fact: fact(d) }));
      setDraft({});
      location.hash = "#/case/" + encodeURIComponent(name);
      await recorded("Line " + r.body.n + " recorded: " + r.body.words + "." + r.body.notes.map((n) => " Note: " + n + ".").join(""));
    } catch (e) {
      if (e.confirm) setOdd(e.message);
      else setProblem(e.message);
      if (e.status === 409) load();
    } finally {
      setBusy(false);
    }
  }

  return html`<main class="page wide">
    <form class="form" onSubmit=${(e) => { e.preventDefault(); save(false); }} aria-label="Record">
      <${Choice} label="What to record" value=${d.kind} onChange=${(kind) => { setProblem(""); setOdd(""); setDraft({ ...d, kind }); }} options=${KINDS} />
      <${Lists} open=${open} />
      <div class="two"><section aria-label="What was found"><${Kind} d=${d} set=${set} open=${open} findings=${start ? start.findings : []} setFile=${setFile} file=${file} setDraft=${setDraft} /></section>
      <section aria-label="Setup and name">
        ${["reading", "moved", "watched"].includes(d.kind) && html`<${SetupFields} d=${d} set=${set} open=${open} />`}
        <${Text} label="Recorded by" value=${by} onChange=${setBy} required />
        <${Problem} message=${problem} />
        ${odd && html`<div class="problem" role="alert"><p>Not recorded yet: ${odd}.</p><button type="button" onClick=${() => save(true)}>It is so; record it</button></div>`}
        <button class="primary" type="submit" disabled=${busy}>${busy ? "Recording …" : "Record line"}</button>
      </section></div>
    </form>
  </main>`;
}

export function Lists({ open }) {
  return html`<datalist id="points">${open.names.points.map((p) => html`<option key=${p} value=${p} />`)}</datalist>
    <datalist id="places">${open.names.places.map((p) => html`<option key=${p} value=${p} />`)}</datalist>
    <datalist id="parts">${open.names.devices.map((p) => html`<option key=${p} value=${"device:" + p} />`)}</datalist>`;
}

function Kind({ d, set, open, findings, setFile, file, setDraft }) {
  const note = (label, hint) => html`<${Text} label=${label} hint=${hint} value=${d.note} onChange=${set("note")} />`;
  const where = html`<${Text} label="Place" value=${d.place} onChange=${set("place")} list="places" hint="kind:id, such as connector:C-ECT; or tap it on the harness first" required />`;
  switch (d.kind) {
    case "reading": return html`
      <${Choice} label="Test" value=${d.meter || "volts"} onChange=${(meter) => setDraft({ ...d, meter, unit: unitsOf(meter)[0][0] })} options=${METERS} />
      <div class="pair"><${Text} label="Red lead at" value=${d.a} onChange=${set("a")} list="points" required />
        <${Text} label="Black lead at" value=${d.b} onChange=${set("b")} list="points" hint="chassis, or a point" required /></div>
      <div class="pair"><${Text} label="Meter shows" value=${d.open ? "" : d.value} onChange=${(value) => setDraft({ ...d, value, open: false })} inputmode="decimal" disabled=${d.open} />
        <${Choice} label="Unit" value=${d.open ? "open" : d.unit || unitsOf(d.meter)[0][0]} onChange=${(u) => setDraft(u === "open" ? { ...d, open: true } : { ...d, open: false, unit: u })} options=${[...unitsOf(d.meter), ["open", "open, over range"]]} /></div>`;
    case "seen": return html`${where}<${Select} label="Found" value=${d.finding || "clean"} onChange=${set("finding")} options=${findings.map((f) => [f, f.replace(/-/g, " ")])} />${note("More words, if any")}`;
    case "moved": return html`${where}<${Choice} label="How" value=${d.action || "wiggle"} onChange=${set("action")} options=${[["wiggle", "Wiggled"], ["heat", "Heated"], ["spray", "Sprayed"]]} />
      <${Choice} label="Did what was watched change?" value=${d.response || "no"} onChange=${set("response")} options=${[["yes", "Yes"], ["no", "No"]]} />${note("What was watched, what it did", "needed when it changed")}`;
    case "watched": return html`<${Choice} label="How" value=${d.method || "unplug"} onChange=${set("method")} options=${[["unplug", "Unplugged"], ["jumper", "Jumper"]]} />
      ${d.method === "jumper" && html`<${Jumper} d=${d} setDraft=${setDraft} />`}
      <${Text} label="Codes active then" value=${d.active} onChange=${set("active")} hint="SPN/FMI with commas, or none" required />`;
    case "swapped": return html`<div class="pair"><${Text} label="Suspected part" value=${d.part} onChange=${set("part")} list="parts" required /><${Text} label="Swapped with" value=${d.with} onChange=${set("with")} list="parts" required /></div>
      <${Choice} label="The codes" value=${d.outcome || "followed"} onChange=${set("outcome")} options=${[["followed", "went with the part"], ["stayed", "stayed with the plug"], ["gone", "are gone"]]} />${note("More words, if any")}`;
    case "codes": return html`<${Choice} label="Where from" value=${d.source || "typed"} onChange=${set("source")} options=${[["typed", "Type them"], ["log", "CAN log"]]} />
      ${d.source === "log" ? html`<div class="field"><label for="log">Log file in a candump text form</label><input id="log" type="file" accept=".log,.txt,text/plain" onChange=${(e) => setFile(e.currentTarget.files[0] || null)} /><p class="hint">${file ? file.name : "at most 32 MB"}</p></div>`
        : html`<${Text} label="Active codes" value=${d.active} onChange=${set("active")} hint="SPN/FMI with commas, counts where known: 110/3, 100/4x2; or none" /><${Text} label="Stored codes" value=${d.stored} onChange=${set("stored")} />`}
      <${Many} label="Looked at with the engine" value=${d.points || []} onChange=${set("points")} options=${open.names.operatingPoints.map((o) => [o.id, o.label])} />`;
    case "access": return html`<${Choice} label="Access" value=${d.way || "open"} onChange=${set("way")} options=${[["open", "Opened"], ["close", "Closed again"]]} />
      <${Choice} label="Step" value=${d.step} onChange=${set("step")} options=${open.names.access.map((a) => [a.id, a.label + ", " + a.minutes + " minutes" + (open.openAccess.includes(a.id) ? " (open)" : "") + (a.caution ? ". Caution: " + a.caution : "")])} />`;
    case "work": return html`<${Choice} label="What was done" value=${d.deed || "repaired"} onChange=${set("deed")} options=${DEEDS} />${d.deed !== "cleared-codes" && where}<${Text} label="Minutes it took" value=${d.minutes} onChange=${set("minutes")} inputmode="decimal" />${note("More words, if any")}`;
    case "photo": return html`<div class="field"><label for="picture">Picture (JPEG or PNG)</label><input id="picture" type="file" accept="image/jpeg,image/png" capture="environment" onChange=${(e) => setFile(e.currentTarget.files[0] || null)} /><p class="hint">${file ? file.name : "at most 16 MB; kept beside the case with its digest"}</p></div>
      <${Select} label="It shows" value=${d.view || "close-up"} onChange=${set("view")} options=${VIEWS} />${note("In words")}<${Text} label="Place, if any" value=${d.place} onChange=${set("place")} list="places" />`;
    case "part": return html`<div class="pair"><${Text} label="Part" value=${d.name} onChange=${set("name")} required /><${Text} label="Number" value=${d.number} onChange=${set("number")} /></div>
      <div class="pair"><${Text} label="Quantity" value=${d.quantity} onChange=${set("quantity")} inputmode="decimal" placeholder="1" /><${Text} label="Price of one" value=${d.price} onChange=${set("price")} inputmode="decimal" /></div>
      <${Choice} label="It" value=${d.role || "used"} onChange=${set("role")} options=${[["causal", "failed first"], ["consequential", "failed because of that"], ["used", "was used up by the repair"]]} />
      <${Select} label="Sort" value=${d.sort || "other"} onChange=${set("sort")} options=${SORTS.map(plain)} /><${Text} label="Place, if any" value=${d.place} onChange=${set("place")} list="places" />`;
    case "kept": return html`<${Text} label="Part" value=${d.name} onChange=${set("name")} required /><${Text} label="Tag" value=${d.tag} onChange=${set("tag")} required />${note("Where it is kept")}`;
    case "chose": return html`<${Select} label="Way" value=${d.option || "splice-repair"} onChange=${set("option")} options=${OPTIONS.map(plain)} />${where}${note("Why, if not as the verdict says")}`;
    case "approved": return html`${note("What was approved")}<div class="pair"><${Text} label="By whom" value=${d.approver} onChange=${set("approver")} /><${Text} label="Number" value=${d.number} onChange=${set("number")} /></div>`;
    case "refused": return html`<${Text} label="Test" value=${d.test} onChange=${set("test")} hint="its id; 'Cannot be done' beside a test fills it in" required />${note("Why it will not be done")}`;
    default: return note("Note", "kept, not weighed");
  }
}

function Jumper({ d, setDraft }) {
  const j = (d.jumpers || [])[0] || { from: "", to: "", ohms: 0.05 };
  const set = (field) => (value) => setDraft({ ...d, jumpers: [{ ...j, [field]: field === "ohms" ? Number(value.replace(",", ".")) : value }] });
  return html`<div class="pair"><${Text} label="Lead from" value=${j.from} onChange=${set("from")} list="points" /><${Text} label="Lead to" value=${j.to} onChange=${set("to")} list="points" /></div>
    <${Text} label="Ohms of the lead, resistor included" value=${String(j.ohms)} onChange=${set("ohms")} inputmode="decimal" />`;
}

export function SetupFields({ d, set, open }) {
  const points = open.names.operatingPoints;
  const point = points.find((o) => o.id === d.at);
  return html`<${Choice} label="Engine" value=${d.at} onChange=${set("at")} options=${[["key-off", "key off"], ...points.map((o) => [o.id, o.label])]} />
    ${point && point.phases.length > 1 && html`<${Select} label="Moment" value=${d.phase || point.phases[0]} onChange=${set("phase")} options=${point.phases.map((p) => [p, p])} />`}
    <${Text} label="Plugs apart" value=${d.unplugged} onChange=${set("unplugged")} hint="connectors with commas; empty when all are mated" />`;
}

export function Correct({ name, open, setup: start, line, close, recorded, load }) {
  const [by] = useName(start && start.user);
  const [why, setWhy] = useState("");
  const [problem, setProblem] = useState("");
  async function save(e) {
    e.preventDefault();
    try {
      const f = { kind: "correction", corrects: line, replacement: { kind: "note", text: why } };
      const r = await postJson(casePath(name, "/lines"), { last: open.last, by, confirm: false, fact: f });
      await recorded("Line " + r.body.n + " recorded: " + r.body.words + ".");
      close();
    } catch (e2) {
      setProblem(e2.message);
      if (e2.status === 409) load();
    }
  }
  return html`<form class="correct" onSubmit=${save}><${Text} label=${"What stands in place of line " + line} value=${why} onChange=${setWhy} hint="why it does not hold; record the right value as a new line" required />
    <${Problem} message=${problem} /><p class="row"><button class="primary" type="submit">Record correction</button><button type="button" onClick=${close}>Leave it</button></p></form>`;
}
