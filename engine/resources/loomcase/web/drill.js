// Drills: a planted fault is looked for as on a real engine; the clock runs.
import { useEffect, useState } from "/lib/hooks.js";
import { Busy, useAnswer } from "/advice.js";
import { get, postJson } from "/api.js";
import { Choice, Heading, html, Many, percent, Problem, Select, Text, useKept, useName } from "/parts.js";
import { fact } from "/fact.js";
import { DEEDS, Gauged, Lists, METERS, SetupFields } from "/record.js";

export function Drills({ setup }) {
  const [all, setAll] = useState(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState("");
  const [by, setBy] = useName(setup.user);
  const [passphrase, setPassphrase] = useState("");
  const [form, setForm] = useKept("drill", { name: "", difficulty: "easy", seed: "", minutes: "", circuit: "" });
  const set = (f) => (v) => setForm({ ...form, [f]: v });
  const load = () => get("/api/drills").then((r) => setAll(r.body), (e) => setProblem(e.message));
  useEffect(() => { document.title = "Drills – Loomcase"; load(); }, []);
  const circuit = form.circuit || (setup.circuits[0] && setup.circuits[0].file);

  async function plant(e) {
    e.preventDefault();
    setProblem("");
    setBusy("Planting …");
    try {
      const numbers = {};
      for (const [field, what] of [["seed", "seed: a whole number, or nothing"], ["minutes", "time limit: whole minutes, or nothing"]]) {
        const typed = (form[field] || "").trim();
        if (typed && !/^\d{1,9}$/.test(typed)) throw { message: what };
        if (typed) numbers[field] = Number(typed);
      }
      await postJson("/api/drills", { name: form.name.trim(), circuit, difficulty: form.difficulty, ...numbers, passphrase });
      setForm({ ...form, name: "" });
      await load();
    } catch (e2) { setProblem(e2.message); } finally { setBusy(""); }
  }
  async function begin(drill) {
    setProblem("");
    try {
      const taken = new Set((all.runs || []).map((r) => r.name));
      let n = 1;
      while (taken.has(drill + "-run-" + n)) n++;
      const { body } = await postJson("/api/drills/" + encodeURIComponent(drill) + "/start", { run: drill + "-run-" + n, by });
      location.hash = "#/case/" + encodeURIComponent(body.name) + "/drill";
    } catch (e) { setProblem(e.message); }
  }
  return html`<main class="page">
    <a class="button" href="#/">Back to cases</a>
    <${Heading}>Drills<//>
    <${Text} label="Student" value=${by} onChange=${setBy} required />
    <${Problem} message=${problem} />
    ${all && html`<h2>Drills in this folder</h2>${!all.drills.length && html`<p class="empty">None yet. Plant one below, or put a drill file into the folder.</p>`}
      <ul class="cases">${all.drills.map((d) => html`<li key=${d.name}><div class="case-card"><strong>${d.name}</strong>${d.problem ? html`<p class="problem">${d.problem}</p>` : html`<span>${d.complaint}</span><span class="quiet">${d.circuit}${d.difficulty ? ", " + d.difficulty : ""}</span><button class="primary" onClick=${() => begin(d.name)} aria-label=${"Start drill " + d.name}>Start</button>`}</div></li>`)}</ul>
      ${all.runs.length > 0 && html`<h2>Runs</h2><ul class="cases">${all.runs.map((r) => html`<li key=${r.name}><a class="case-card" href=${"#/case/" + encodeURIComponent(r.name) + "/drill"}><strong>${r.name}</strong><span>${r.student}, ${Math.round(r.minutes)} minutes</span><span class="quiet">${r.ending ? "over: " + r.ending : "going on"}</span></a></li>`)}</ul>
        ${all.runs.some((r) => r.ending) && html`<${Overview} runs=${all.runs} />`}`}`}
    <form class="form" onSubmit=${plant} aria-label="Plant a drill"><h2>Plant one</h2>
      <div class="two"><section aria-label="What"><${Text} label="Drill name" value=${form.name} onChange=${set("name")} required />
        <${Select} label="Circuit" value=${circuit} onChange=${set("circuit")} options=${setup.circuits.map((c) => [c.file, c.title])} /></section>
      <section aria-label="How hard"><${Choice} label="Difficulty" value=${form.difficulty} onChange=${set("difficulty")} options=${[["easy", "easy"], ["medium", "medium"], ["hard", "hard"]]} />
        <div class="pair"><${Text} label="Time limit, minutes" value=${form.minutes} onChange=${set("minutes")} hint="on the drill's clock; empty for none" inputmode="numeric" />
        <${Text} label="Seed" value=${form.seed} onChange=${set("seed")} hint="draws the same drill again, for whoever knows it; empty for one that nobody knows" inputmode="numeric" /></div>
        <${Text} label="Passphrase" type="password" autocomplete="new-password" value=${passphrase} onChange=${setPassphrase} hint="with it the instructor opens the answer on the command line" required />
        <button class="primary" disabled=${!!busy}>${busy || "Plant"}</button></section></div></form>
  </main>`;
}

// Runs that are over, side by side, for the instructor; where the faults were is not in it.
function Overview({ runs }) {
  const [shown, setShown] = useState(false);
  const state = useAnswer(shown ? "/api/class" : null, runs);
  if (!shown) return html`<p><button onClick=${() => setShown(true)}>Class overview</button></p>`;
  return html`<section aria-label="Class overview"><h2>Class overview</h2><${Problem} message=${state.problem} /><${Busy} state=${state} words="Letting the planner play each drill" />
    ${state.data && html`<div class="scroll" tabindex="0" role="region" aria-label="Table of the class"><table><thead><tr>${["Student", "Drill", "End", "Minutes", "Planner's minutes", "Money", "Tests", "Hints", "Harm"].map((w) => html`<th scope="col" key=${w}>${w}</th>`)}</tr></thead><tbody>
      ${state.data.runs.map((r) => html`<tr key=${r.student + r.drill + r.started}><th scope="row">${r.student}</th><td>${r.drill}${r.difficulty ? ", " + r.difficulty : ""}${r.again ? html`<span class="quiet">had seen the answer before</span>` : ""}</td><td>${r.ending.replace(/-/g, " ")}</td>
        <td>${Math.round(r.minutes)}</td><td>${Math.round(r.plannerMinutes)}</td><td>${r.money}</td><td>${r.tests}</td><td>${r.hints}</td><td>${r.harms}</td></tr>`)}</tbody></table></div>`}</section>`;
}

const ASKS = [["reading", "Meter"], ["seen", "Look"], ["moved", "Wiggle"], ["watched", "Unplug and watch"], ["swapped", "Swap"], ["gauged", "Gauge"], ["codes", "Read codes"], ["access", "Access"], ["work", "Work"], ["claim", "It is fixed"], ["hint", "Hint"], ["give-up", "Give up"]];

const HELP = "looked at what Loomcase suspects";
export const HELP_SEEN = new RegExp("^note: " + HELP + "$");

// Suspects and next tests in a run that goes on: there for who asks, and the run says that somebody asked.
export function TakeHelp({ name, open, setup, load }) {
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const [by] = useName(setup && setup.user);
  async function show() {
    setProblem("");
    setBusy(true);
    try {
      await postJson("/api/runs/" + encodeURIComponent(name) + "/do", { last: open.last, by, ask: "fact", fact: { kind: "note", text: HELP } });
      await load();
    } catch (e) { setProblem(e.message); if (e.status === 409) load(); } finally { setBusy(false); }
  }
  return html`<section class="card" aria-label="Help"><h2>Yours to find</h2>
    <p>Point at a place for its wires and healthy volts. What Loomcase suspects, and what it would test next, is kept back in a drill.</p>
    <${Problem} message=${problem} />
    <button onClick=${show} disabled=${busy}>${busy ? "…" : "Show it all the same"}</button>
    <p class="quiet">It costs no minutes, but the run and its debrief say that you looked.</p></section>`;
}

export function Run({ name, open, setup, load }) {
  const [run, setRun] = useState(null);
  const [d, setD] = useKept("run " + name, { kind: "seen" });
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const [debrief, setDebrief] = useState(null);
  const [by] = useName(setup && setup.user);
  const path = "/api/runs/" + encodeURIComponent(name);
  const set = (f) => (v) => setD({ ...d, [f]: v });
  useEffect(() => { get(path).then((r) => setRun(r.body), (e) => setProblem(e.message)); }, [name, open.last]);
  useEffect(() => { if (run && run.ending) get(path + "/debrief").then((r) => setDebrief(r.body), (e) => setProblem(e.message)); }, [run && run.ending]);

  function ask() {
    if (d.kind === "hint" || d.kind === "give-up") return { ask: d.kind };
    if (d.kind === "claim") return { ask: "claim", places: (d.places || "").split(",").map((p) => p.trim()).filter(Boolean) };
    if (d.kind === "codes") return { ask: "codes", points: d.points || [] };
    const f = fact({ ...d, open: true, response: "no", finding: "clean", active: "none", outcome: "stayed", condition: "healthy", note: "" });
    if (f.kind === "reading") {
      const meter = {};
      if (d.probe === "bare") meter.name = run.bareProbe;
      if (d.zero) meter.leadZeroOhms = run.leadOhms;
      if (Object.keys(meter).length) f.meter = meter;
    }
    return { ask: "fact", fact: f };
  }
  async function act(e) {
    e.preventDefault();
    setProblem("");
    setBusy(true);
    try {
      const { body } = await postJson(path + "/do", { last: run.last, by, ...ask() });
      setRun(body);
      load();
    } catch (e2) { setProblem(e2.message); if (e2.status === 409) get(path).then((r) => setRun(r.body)); } finally { setBusy(false); }
  }
  if (!run) return html`<main class="page wide"><${Problem} message=${problem} /><p class="wait">Opening the run …</p></main>`;
  const steps = [...run.steps].reverse();
  return html`<main class="page wide drill">
    <section class="card next clock" aria-label="Clock"><p class="answer">${Math.round(run.minutes)}${run.mostMinutes ? " of " + Math.round(run.mostMinutes) : ""} minutes, ${run.money}${run.mostMoney ? " of " + run.mostMoney : ""} ${run.currency}</p>
      <p>${open.complaint}. Codes: ${run.codes.join(", ") || "none"}. Open: ${run.open.join(", ") || "nothing"}.</p></section>
    <${Problem} message=${problem} />
    ${run.ending ? html`<section class="card" aria-label="End"><h2>The run is over: ${run.ending}</h2>${debrief ? html`<${Debrief} d=${debrief} />` : html`<p class="wait">Looking back …</p>`}</section>`
      : html`<form class="form" onSubmit=${act} aria-label="Do"><${Choice} label="What do you do?" value=${d.kind} onChange=${set("kind")} options=${ASKS} /><${Lists} open=${open} />
        <div class="two"><section aria-label="What"><${Ask} d=${d} set=${set} open=${open} run=${run} /></section>
        <section aria-label="Setup">${["reading", "moved", "watched"].includes(d.kind) && html`<${SetupFields} d=${d} set=${set} open=${open} />`}<button class="primary" disabled=${busy}>${busy ? "…" : "Do it"}</button></section></div></form>`}
    <section aria-label="What was done" aria-live="polite"><h2>What was done</h2><ol class="plain lines">${steps.map((s) => html`<li key=${s.line}><b>${s.words}</b>; took ${Math.round(s.minutes)} minutes${s.parts !== "0" && Number(s.parts) ? " and parts for " + s.parts + " " + run.currency : ""}
      ${s.marks.map((m) => html`<p class="problem" key=${m.words}>${m.harm ? "Harm done: " : "Mind: "}${m.words}</p>`)}</li>`)}</ol></section>
  </main>`;
}

function Ask({ d, set, open, run }) {
  const where = html`<${Text} label="Place" value=${d.place} onChange=${set("place")} list="places" hint="kind:id, such as connector:C1" required />`;
  switch (d.kind) {
    case "reading": return html`<${Choice} label="Test" value=${d.meter || "volts"} onChange=${set("meter")} options=${METERS} />
      <div class="pair"><${Text} label="Red lead at" value=${d.a} onChange=${set("a")} list="points" required /><${Text} label="Black lead at" value=${d.b} onChange=${set("b")} list="points" required /></div>
      <${Choice} label="Probe" value=${d.probe || "pin"} onChange=${set("probe")} options=${[["pin", "matching test pin"], ["bare", "bare tip, quicker"]]} />
      <${Many} label="Leads" value=${d.zero ? ["zero"] : []} onChange=${(v) => set("zero")(v.length > 0)} options=${[["zero", "zeroed first"]]} />`;
    case "seen": return where;
    case "moved": return html`${where}<${Choice} label="How" value=${d.action || "wiggle"} onChange=${set("action")} options=${[["wiggle", "Wiggle"], ["heat", "Heat"], ["spray", "Spray"]]} />`;
    case "watched": return html`<p>Name the plug under "Plugs apart"; the codes are watched with it apart.</p>`;
    case "swapped": return html`<div class="pair"><${Text} label="Part" value=${d.part} onChange=${set("part")} list="parts" required /><${Text} label="Swap with" value=${d.with} onChange=${set("with")} list="parts" required /></div>`;
    case "gauged": return html`<${Gauged} d=${d} set=${set} open=${open} />`;
    case "codes": return html`<${Many} label="Run the engine at" value=${d.points || []} onChange=${set("points")} options=${open.names.operatingPoints.map((o) => [o.id, o.label])} />`;
    case "access": return html`<${Choice} label="Access" value=${d.way || "open"} onChange=${set("way")} options=${[["open", "Open"], ["close", "Close"]]} /><${Choice} label="Step" value=${d.step} onChange=${set("step")} options=${open.names.access.map((a) => [a.id, a.label + ", " + a.minutes + " minutes" + (run.open.includes(a.id) ? " (open)" : "") + (a.caution ? ". Caution: " + a.caution : "")])} />`;
    case "work": return html`<${Choice} label="What" value=${d.deed || "repaired"} onChange=${set("deed")} options=${DEEDS} />${d.deed !== "cleared-codes" && where}`;
    case "claim": return html`<${Text} label="It was at" value=${d.places} onChange=${set("places")} list="places" hint="the place, or engine; with commas when there were two faults. The run ends." required />`;
    case "hint": return html`<p>A hint costs ${Math.round(run.hintMinutes)} minutes.</p>`;
    default: return html`<p>The run ends and the fault is shown.</p>`;
  }
}

function Debrief({ d }) {
  return html`<p><b>It was ${d.truth.map((t) => t.place + ": " + t.words).join("; ")}.</b></p>
    <p>${d.student}: ${Math.round(d.minutes)} minutes, ${d.money} ${d.currency}; ${Math.round(d.lostMinutes)} minutes of it lost. The planner: ${Math.round(d.planner.minutes)} minutes, ${d.planner.tests} ${d.planner.tests === 1 ? "test" : "tests"}, first place ${d.planner.rightFirst ? "right" : "wrong"}.</p>
    ${d.linesNotGiven.length > 0 && html`<p class="problem">Lines that the drill did not answer so, written by another hand: ${d.linesNotGiven.join(", ")}</p>`}
    <h3>Your way</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of your way"><table><thead><tr><th scope="col">Step</th><th scope="col">Minutes</th><th scope="col">True place then</th><th scope="col">Remark</th></tr></thead><tbody>
      <tr><td>the first codes</td><td></td><td>${percent(d.probabilityAtFirst)}</td><td></td></tr>
      ${d.steps.map((s) => html`<tr key=${s.line}><td>${s.what}${s.outcomes && html`<span class="quiet">could tell ${s.expectedBits.toFixed(2)} bits: ${s.outcomes.slice(0, 3).map((o) => o.outcome + " (" + percent(o.probability) + "), then " + o.place + " " + percent(o.then)).join("; ")}</span>`}</td><td>${Math.round(s.minutes)}</td><td>${percent(s.probability)}</td><td>${s.lost ? "lost: " + s.lost : ""}</td></tr>`)}</tbody></table></div>
    <h3>The planner's way</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of the planner's way"><table><thead><tr><th scope="col">Step</th><th scope="col">Result</th><th scope="col">Minutes</th><th scope="col">True place then</th></tr></thead><tbody>
      ${d.planner.moves.map((m, i) => html`<tr key=${i}><td>${m.what}</td><td>${m.result}</td><td>${Math.round(m.minutes)}</td><td>${percent(m.probability)}</td></tr>`)}</tbody></table></div>
    <p class="quiet">Bits: how much a test was expected to narrow down the place; 1 halves the doubt.</p>
    ${d.safety.length > 0 && html`<h3>Safety</h3><ul>${d.safety.map((m) => html`<li key=${m.line + m.words}><b>${m.harm ? "Harm" : "Mind"}</b>, line ${m.line}: ${m.words}</li>`)}</ul>`}`;
}
