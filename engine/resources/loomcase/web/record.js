// Recording: one form a kind of line, and what happens when the case has grown meanwhile.
import { useEffect, useRef, useState } from "/lib/hooks.js";
import { casePath, postJson, postLog, postPhoto, query } from "/api.js";
import { fact, form, placeText, UNITS, unitsOf, written } from "/fact.js";
import { Choice, html, Many, Problem, Select, Text, useName } from "/parts.js";

const KINDS = {
  "At the engine": [["reading", "Meter reading"], ["seen", "Look"], ["moved", "Wiggle"], ["watched", "Unplug and watch"], ["swapped", "Swap"], ["gauged", "Gauge"], ["codes", "Codes"], ["refused", "Test refused"]],
  "Work": [["access", "Access"], ["work", "Work done"], ["part", "Part used"], ["kept", "Part kept"]],
  "For the claim": [["opened", "Machine and complaint"], ["chose", "Way chosen"], ["approved", "Approval"], ["photo", "Photo"], ["note", "Note"]],
};
const NAMES = Object.fromEntries(Object.values(KINDS).flat());
export const kindWords = (kind) => NAMES[kind] || NAMES[kind === "opened-access" || kind === "closed-access" ? "access" : "note"];
export const METERS = [["volts", "Volts"], ["ohms", "Ohms"], ["drop", "Volts lost under load"], ["isolation", "Isolation"]];
export const DEEDS = [["repaired", "Repaired"], ["replaced", "Replaced"], ["reseated", "Reseated"], ["cleaned", "Cleaned"], ["rerouted", "Rerouted"], ["cleared-codes", "Cleared codes"]];
const ALONE = ["monitor", "full-harness"];
export const OPTIONS = ["monitor", "reseat", "terminal", "pigtail", "splice-repair", "overlay-wire", "branch-section", "full-harness", "fuse", "device", "control-unit"];
const DAMAGES = ["rub", "heat", "fluid", "installation", "animal", "modification", "wear", "collision"];
const SORTS = ["wire", "terminal", "section", "harness", "device", "control-unit", "fuse", "other"];
const VIEWS = [["overview", "Where on the machine"], ["close-up", "The damage, with a scale"], ["cavities", "Cavities of a plug"], ["repair", "The repair"], ["tag", "A kept part with its tag"]];
const plain = (w) => [w, w.replace(/-/g, " ")];

// The meter of the last reading recorded on this tablet: its name is offered again, its lead zero only when pressed.
const remembered = () => JSON.parse(localStorage.getItem("meter") || "{}");
const remember = (d) => d.meterName && localStorage.setItem("meter", JSON.stringify({ meterName: d.meterName, inputOhms: d.inputOhms || "", leadZero: d.leadZero || "" }));

export function Record({ name, open, answer, setup: start, draft, setDraft, recorded, load }) {
  const { meterName, inputOhms } = remembered();
  const d = { meterName, inputOhms, ...draft };
  const set = (field) => (value) => setDraft({ ...d, [field]: value });
  const [by, setBy] = useName(start && start.user);
  const [file, setFile] = useState(null);
  const [problem, setProblem] = useState("");
  const [odd, setOdd] = useState("");
  const [busy, setBusy] = useState(false);
  const old = d.corrects && open.entries.find((e) => e.n === d.corrects);

  async function send(confirm) {
    const about = { last: open.last, by };
    if (d.kind === "codes" && d.source === "log") {
      if (!file) throw { message: "choose the log file" };
      return postLog(casePath(name, "/log") + query({ ...about, at: (d.points || []).join(",") }), file);
    }
    if (d.kind === "codes") {
      const none = (t) => ((t || "").trim() === "none" ? "" : (t || "").trim());
      if (!(d.active || "").trim() && !(d.stored || "").trim()) throw { message: "type the codes that were read; put 'none' when there were none" };
      return postJson(casePath(name, "/codes"), { ...about, active: none(d.active), stored: none(d.stored), at: d.points || [], ...(d.corrects && { corrects: d.corrects }) });
    }
    if (d.kind === "photo" && !(d.corrects && d.file)) {
      if (!file) throw { message: "choose or take the picture" };
      return postPhoto(casePath(name, "/photo") + query({ ...about, view: d.view || "close-up", shows: d.note, place: (d.place || "").trim() }), file);
    }
    const f = fact(d);
    return postJson(casePath(name, "/lines"), written({ ...about, confirm, fact: d.corrects ? { kind: "correction", corrects: d.corrects, replacement: f } : f }));
  }
  async function save(confirm) {
    setProblem("");
    setOdd("");
    setBusy(true);
    try {
      const r = await send(confirm);
      if (d.kind === "reading") remember(d);
      setDraft({});
      location.hash = "#/case/" + encodeURIComponent(name) + (d.back ? "/" + d.back : "");
      await recorded("Line " + r.body.n + " recorded: " + r.body.words + "." + r.body.notes.map((n) => " Note: " + n + ".").join(""));
    } catch (e) {
      if (e.confirm) setOdd(e.message);
      else setProblem(e.message);
      if (e.status === 409) load();
    } finally {
      setBusy(false);
    }
  }
  function turn(kind) {
    setProblem("");
    setOdd("");
    if (kind === "opened") form({ name, line: { kind, corrects: 1 }, back: d.back }).then(setDraft, (e) => setProblem(e.message));
    else if (d.corrects === 1) setDraft({ kind, back: d.back });
    else setDraft({ ...d, kind });
  }

  return html`<main class="page wide">
    <form class="form" onSubmit=${(e) => { e.preventDefault(); save(false); }} aria-label="Record">
      ${old && html`<section class="card next" aria-label="Correction"><h2>${"What stands in place of line " + old.n}</h2><p>It says: ${old.words}.</p>
        <p class="row">${d.kind !== "note" && d.kind !== "opened" && html`<button type="button" onClick=${() => setDraft({ kind: "note", corrects: d.corrects, back: d.back })}>Nothing holds of it</button>`}
          <button type="button" onClick=${() => { setDraft({}); location.hash = "#/case/" + encodeURIComponent(name) + "/" + (d.back || "journal"); }}>Leave it as it is</button></p></section>`}
      ${!old && html`<${Kinds} kind=${d.kind} turn=${turn} />`}
      ${d.kind && html`<${Lists} open=${open} />
      <div class="two"><section aria-label="What was found"><${Kind} d=${d} set=${set} open=${open} answer=${answer} findings=${start ? start.findings : []} setFile=${setFile} file=${file} setDraft=${setDraft} /></section>
      <section aria-label="Setup and name">
        ${["reading", "moved", "watched"].includes(d.kind) && html`<${SetupFields} d=${d} set=${set} open=${open} />`}
        <${Text} label="Recorded by" value=${by} onChange=${setBy} required />
        <${Problem} message=${problem} />
        ${odd && html`<div class="problem" role="alert"><p>Not recorded yet: ${odd}.</p><button type="button" onClick=${() => save(true)}>It is so; record it</button></div>`}
        <button class="primary" type="submit" disabled=${busy}>${busy ? "Recording …" : old ? "Record correction" : "Record line"}</button>
      </section></div>`}
    </form>
  </main>`;
}

// All kinds as buttons until one is chosen; then its name alone, so that the form has the room.
function Kinds({ kind, turn }) {
  const [all, setAll] = useState(false);
  const heading = useRef(null);
  const shown = all || !kind;
  useEffect(() => { if (!shown && heading.current) heading.current.focus({ preventScroll: true }); }, [shown]);
  if (!shown) return html`<div class="head-row"><h2 tabindex="-1" ref=${heading}>${kindWords(kind)}</h2><button type="button" onClick=${() => setAll(true)}>Another kind</button></div>`;
  return html`${Object.entries(KINDS).map(([group, kinds]) => html`<section key=${group} aria-label=${group}><h2>${group}</h2>
    <p class="row">${kinds.map(([k, words]) => html`<button type="button" key=${k} onClick=${() => { setAll(false); turn(k); }}>${words}</button>`)}</p></section>`)}`;
}

export function Lists({ open }) {
  return html`<datalist id="points">${open.names.points.map((p) => html`<option key=${p} value=${p} />`)}</datalist>
    <datalist id="places">${open.names.places.map((p) => html`<option key=${p} value=${p} />`)}${open.names.rubPoints.map((r) => html`<option key=${r.id} value=${"rub-point:" + r.id}>${r.label}</option>`)}</datalist>
    <datalist id="parts">${open.names.devices.map((p) => html`<option key=${p} value=${"device:" + p} />`)}</datalist>`;
}

// A place, typed or taken with one tap from what is suspected most.
function Place({ d, set, answer, label = "Place", needed = true }) {
  const near = answer ? answer.rank.suspects.slice(0, 3).flatMap((s) => s.places.slice(0, 2)).filter((p) => p.kind !== "engine").map(placeText) : [];
  const few = [...new Set(near)].filter((p) => p !== d.place).slice(0, 4);
  return html`<${Text} label=${label} value=${d.place} onChange=${set("place")} list="places" hint="kind:id, such as connector:C1; or tap it on the harness first" required=${needed} />
    ${few.length > 0 && html`<div class="row near" role="group" aria-label="Places suspected most">${few.map((p) => html`<button type="button" key=${p} onClick=${() => set("place")(p)}>${p.replace(":", " ")}</button>`)}</div>`}`;
}

function MeterFields({ d, set }) {
  const { leadZero } = remembered();
  const ohms = unitsOf(d.meter) === UNITS.ohms;
  const meter = html`<${Text} label="Meter" value=${d.meterName} onChange=${set("meterName")} hint="what it is called here" />`;
  if (!ohms) return html`<div class="pair">${meter}<${Text} label="Its own ohms on volts" value=${d.inputOhms} onChange=${set("inputOhms")} inputmode="decimal" hint="if known, such as 10000000" /></div>`;
  return html`<div class="pair">${meter}<${Text} label="Wires, degrees Celsius" value=${d.celsius} onChange=${set("celsius")} inputmode="decimal" /></div>
    <${Text} label="Leads held together, ohm" value=${d.leadZero} onChange=${set("leadZero")} inputmode="decimal" hint="already taken off what it shows" />
    ${leadZero && leadZero !== d.leadZero && html`<p><button type="button" onClick=${() => set("leadZero")(leadZero)}>${"Still " + leadZero + " ohm"}</button></p>`}`;
}

function Kind({ d, set, open, answer, findings, setFile, file, setDraft }) {
  const note = (label, hint) => html`<${Text} label=${label} hint=${hint} value=${d.note} onChange=${set("note")} />`;
  const where = html`<${Place} d=${d} set=${set} answer=${answer} />`;
  const maybe = html`<${Place} d=${d} set=${set} answer=${answer} label="Place, if any" needed=${false} />`;
  switch (d.kind) {
    case "reading": return html`
      <${Choice} label="Test" value=${d.meter || "volts"} onChange=${(meter) => setDraft({ ...d, meter, unit: unitsOf(meter)[0][0] })} options=${METERS} />
      <div class="pair"><${Text} label="Red lead at" value=${d.a} onChange=${set("a")} list="points" required />
        <${Text} label="Black lead at" value=${d.b} onChange=${set("b")} list="points" hint="chassis, or a point" required /></div>
      <div class="pair"><${Text} label="Meter shows" value=${d.open ? "" : d.value} onChange=${(value) => setDraft({ ...d, value, open: false })} inputmode="decimal" disabled=${d.open} />
        <${Choice} label="Unit" value=${d.open ? "open" : d.unit || unitsOf(d.meter)[0][0]} onChange=${(u) => setDraft(u === "open" ? { ...d, open: true } : { ...d, open: false, unit: u })} options=${[...unitsOf(d.meter), ["open", "open, over range"]]} /></div>
      <${MeterFields} d=${d} set=${set} />`;
    case "opened": return html`<${Text} label="Complaint" value=${d.complaint} onChange=${set("complaint")} hint="what the driver or customer says" required /><${MachineFields} d=${d} set=${set} />`;
    case "seen": return html`${where}<${Select} label="Found" value=${d.finding || "clean"} onChange=${set("finding")} options=${findings.map((f) => [f, f.replace(/-/g, " ")])} />${note("More words, if any")}`;
    case "moved": return html`${where}<${Choice} label="How" value=${d.action || "wiggle"} onChange=${set("action")} options=${[["wiggle", "Wiggled"], ["heat", "Heated"], ["spray", "Sprayed"]]} />
      <${Choice} label="Did what was watched change?" value=${d.response || "no"} onChange=${set("response")} options=${[["yes", "Yes"], ["no", "No"]]} />${note("What was watched, what it did", "needed when it changed")}`;
    case "watched": return html`<${Choice} label="How" value=${d.method || "unplug"} onChange=${set("method")} options=${[["unplug", "Unplugged"], ["jumper", "Jumper"]]} />
      ${d.method === "jumper" && html`<${Jumper} d=${d} setDraft=${setDraft} />`}
      <${Text} label="Codes active then" value=${d.active} onChange=${set("active")} hint="SPN/FMI with commas, or none" required />`;
    case "swapped": return html`<div class="pair"><${Text} label="Suspected part" value=${d.part} onChange=${set("part")} list="parts" required /><${Text} label="Swapped with" value=${d.with} onChange=${set("with")} list="parts" required /></div>
      <${Choice} label="The codes" value=${d.outcome || "followed"} onChange=${set("outcome")} options=${[["followed", "went with the part"], ["stayed", "stayed with the plug"], ["gone", "are gone"]]} />${note("More words, if any")}`;
    case "gauged": return html`<${Gauged} d=${d} set=${set} open=${open} />
      ${d.part && html`<${Select} label="The engine itself was" value=${d.condition || ""} onChange=${set("condition")} options=${[["", "choose …"], ["healthy", "as it should be"], ...open.names.conditions.filter((c) => "device:" + c.device === d.part).map((c) => [c.id, c.label])]} />`}${note("What the instrument showed, if any")}`;
    case "codes": return html`<${Choice} label="Where from" value=${d.source || "typed"} onChange=${set("source")} options=${[["typed", "Type them"], ["log", "CAN log"]]} />
      ${d.source === "log" ? html`<div class="field"><label for="log">Log file in a candump text form</label><input id="log" type="file" accept=".log,.txt,text/plain" onChange=${(e) => setFile(e.currentTarget.files[0] || null)} /><p class="hint">${file ? file.name : "at most 32 MB"}</p></div>`
        : html`<${Text} label="Active codes" value=${d.active} onChange=${set("active")} hint="SPN/FMI with commas, counts where known: 110/3, 100/4x2; or none" /><${Text} label="Stored codes" value=${d.stored} onChange=${set("stored")} />`}
      <${Many} label="Looked at with the engine" value=${d.points || []} onChange=${set("points")} options=${open.names.operatingPoints.map((o) => [o.id, o.label])} />`;
    case "access": return html`<${Choice} label="Access" value=${d.way || "open"} onChange=${set("way")} options=${[["open", "Opened"], ["close", "Closed again"]]} />
      <${Choice} label="Step" value=${d.step} onChange=${set("step")} options=${open.names.access.map((a) => [a.id, a.label + ", " + a.minutes + " minutes" + (open.openAccess.includes(a.id) ? " (open)" : "") + (a.caution ? ". Caution: " + a.caution : "")])} />`;
    case "work": return html`<${Choice} label="What was done" value=${d.deed || "repaired"} onChange=${set("deed")} options=${DEEDS} />${d.deed !== "cleared-codes" && where}<${Text} label="Minutes it took" value=${d.minutes} onChange=${set("minutes")} inputmode="decimal" />${note("More words, if any")}`;
    case "photo": return html`${d.corrects && d.file ? html`<p>Picture: <b>${d.file}</b></p>` : html`<div class="field"><label for="picture">Picture (JPEG or PNG)</label><input id="picture" type="file" accept="image/jpeg,image/png" capture="environment" onChange=${(e) => setFile(e.currentTarget.files[0] || null)} /><p class="hint">${file ? file.name : "at most 16 MB; kept beside the case with its digest"}</p></div>`}
      <${Select} label="It shows" value=${d.view || "close-up"} onChange=${set("view")} options=${VIEWS} />${note("In words")}${maybe}`;
    case "part": return html`<div class="pair"><${Text} label="Part" value=${d.name} onChange=${set("name")} required /><${Text} label="Number" value=${d.number} onChange=${set("number")} /></div>
      <div class="pair"><${Text} label="Quantity" value=${d.quantity} onChange=${set("quantity")} inputmode="decimal" placeholder="1" /><${Text} label="Price of one" value=${d.price} onChange=${set("price")} inputmode="decimal" /></div>
      <${Choice} label="It" value=${d.role || "used"} onChange=${set("role")} options=${[["causal", "failed first"], ["consequential", "failed because of that"], ["used", "was used up by the repair"]]} />
      <${Select} label="Sort" value=${d.sort || "other"} onChange=${set("sort")} options=${SORTS.map(plain)} />${maybe}`;
    case "kept": return html`<${Text} label="Part" value=${d.name} onChange=${set("name")} required /><${Text} label="Tag" value=${d.tag} onChange=${set("tag")} required />${note("Where it is kept")}`;
    case "chose": return html`<${Select} label="Way" value=${d.option || ""} onChange=${set("option")} options=${[["", "choose …"], ...OPTIONS.map(plain)]} /><${Place} d=${d} set=${set} answer=${answer} label="Place that failed" />
      <${Select} label="Second repair of the same visit" value=${d.alsoOption || ""} onChange=${set("alsoOption")} options=${[["", "none"], ...OPTIONS.filter((o) => !ALONE.includes(o)).map(plain)]} />
      ${d.alsoOption && html`<${Text} label="Second place that failed" value=${d.alsoPlace} onChange=${set("alsoPlace")} list="places" hint="kind:id, such as device:OPS" required=${true} />`}
      ${note("Why this and nothing smaller or larger")}<${Choice} label="Why it failed, if known" value=${d.damage || ""} onChange=${set("damage")} options=${[["", "not known"], ...DAMAGES.map(plain)]} />`;
    case "approved": return html`${note("What was approved")}<div class="pair"><${Text} label="By whom" value=${d.approver} onChange=${set("approver")} /><${Text} label="Number" value=${d.number} onChange=${set("number")} /></div>
      <${Text} label="Date" value=${d.date} onChange=${set("date")} hint="such as 2024-05-01" />`;
    case "refused": return html`<${Text} label="Test" value=${d.test} onChange=${set("test")} hint="its id; 'Cannot be done' beside a test fills it in" required />${note("Why it will not be done")}`;
    default: return note("Note", "kept, not weighed");
  }
}

// The sensor that reports on the engine; the engine itself is checked without it.
export function Gauged({ d, set, open }) {
  const sensors = [...new Set(open.names.conditions.map((c) => c.device))];
  return html`<${Select} label="What this sensor reports, checked by gauge, thermometer, dipstick or eye" value=${d.part || ""} onChange=${set("part")} options=${[["", "choose …"], ...sensors.map((p) => ["device:" + p, p + ": " + open.names.conditions.filter((c) => c.device === p).map((c) => c.label).join(", ")])]} />
    <p class="hint">Caution: hot coolant and oil under pressure, fuel under pressure, moving parts. Fit gauges and open caps only cold and relieved; the engine maker's instructions come first.</p>`;
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

// What a claim needs to know of the machine; shared with the form that opens a case, which folds what can wait.
export function MachineFields({ d, set, folded }) {
  const more = html`<div class="pair"><${Text} label="Serial number" value=${d.serial} onChange=${set("serial")} hint="read from the machine" /><${Text} label="Distance" value=${d.distance} onChange=${set("distance")} hint="with its unit, such as 412300 km" /></div>
    <${Text} label="Date of first use" value=${d.inService} onChange=${set("inService")} hint="such as 2021-03-15" />`;
  return html`<div class="pair"><${Text} label="Unit, if known" value=${d.unit} onChange=${set("unit")} /><${Text} label="Engine hours, if known" value=${d.hours} onChange=${set("hours")} inputmode="decimal" /></div>
    ${folded ? html`<details><summary>Serial number, distance, first use: for a claim</summary>${more}</details>` : more}`;
}
