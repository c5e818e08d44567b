// What to do and what it costs, how it is done, whether it is fixed, whether a replacement fits.
import { useEffect, useState } from "/lib/hooks.js";
import { casePath, get, query } from "/api.js";
import { placeText } from "/fact.js";
import { Cautions, Choice, html, percent, Problem, Select, Text, useKept } from "/parts.js";

const whole = (x) => Math.round(x).toLocaleString("en").replace(/,/g, "\u00a0");
const money = (x, currency) => whole(x) + "\u00a0" + currency;

const MOST_WAYS = 10;

const ASK_AGAIN_MILLIS = 150;

// An answer that may take its time: while it is being made, how far it is, or since when, is known.
export function useAnswer(path, ...on) {
  const [state, setState] = useState({});
  useEffect(() => {
    if (!path) return setState({});
    let live = true;
    const since = Date.now();
    const ask = async () => {
      for (;;) {
        const r = await get(path);
        if (!live) return;
        if (r.status !== 202) return setState({ data: r.body });
        setState((s) => ({ ...s, busy: true, share: r.body.share, seconds: Math.round((Date.now() - since) / 1000) }));
        await new Promise((done) => setTimeout(done, ASK_AGAIN_MILLIS));
      }
    };
    setState((s) => ({ ...s, busy: true, share: undefined, seconds: 0, problem: "" }));
    ask().catch((e) => live && setState({ problem: e.message }));
    return () => { live = false; };
  }, [path, ...on]);
  return state;
}

export function Busy({ state, words }) {
  if (!state.busy) return null;
  const ranking = state.share !== undefined && state.share < 1;
  return html`<div class="card busy"><p role="status">${ranking ? "First all faults of this harness are weighed" : words + " …"}</p>
    <p class="quiet">${ranking ? Math.round(100 * state.share) + " %" : (state.seconds || 0) + " s so far"}</p>
    <progress max="1" value=${ranking ? state.share : undefined} aria-label=${words}></progress></div>`;
}

export function Verdict({ name, open, setDraft }) {
  const [rates, setRates] = useKept("rates " + name, { labour: "", downtime: "" });
  const [asked, setAsked] = useState(rates);
  const state = useAnswer(open.hasCodes ? casePath(name, "/verdict") + query(asked) : null, open.last);
  const v = state.data;
  if (!open.hasCodes) return html`<main class="page wide"><p class="wait">No codes have been read yet.</p></main>`;
  const worth = v ? v.costs.filter((c) => c.worthALine) : [];
  const most = Math.max(1, ...worth.map((c) => c.high));
  const leading = v && v.place && v.halves.length === 0 ? v.costs.find((c) => c.remedy === v.leading) : undefined;
  return html`<main class="page wide">
    <h2>Verdict</h2>
    <${Problem} message=${state.problem} />
    <${Busy} state=${state} words="Weighing what each way costs" />
    ${v && html`
      <section class="card next" aria-label="Answer"><p class="answer">${headline(v)}</p>
        ${v.halves.length > 0 && html`<ol>${v.halves.map((h) => html`<li key=${h.remedy}>${h.words}</li>`)}</ol>`}
        ${leading && html`<p>${leading.words}.</p>`}
        <p><b>${v.fullReplacement.words}</b></p>
        ${v.reasons.map((r) => html`<p key=${r}>${r}.</p>`)}
        <p>Confidence ${percent(v.confidence)}: the share of draws of the uncertain figures in which this is cheapest.</p>
        ${v.place && html`<p><a class="button primary" href=${"#/case/" + encodeURIComponent(name) + "/record"} onClick=${() => setDraft({ ...chosenDraft(v), back: "job" })}>Choose this way</a></p>`}</section>
      <form class="row" onSubmit=${(e) => { e.preventDefault(); setAsked(rates); }} aria-label="Rates">
        <${Text} label=${"Labour, " + v.currency + " an hour"} value=${rates.labour} onChange=${(labour) => setRates({ ...rates, labour })} inputmode="decimal" placeholder=${String(v.rates.labourPerHour)} />
        <${Text} label=${"Standing still, " + v.currency + " an hour"} value=${rates.downtime} onChange=${(downtime) => setRates({ ...rates, downtime })} inputmode="decimal" placeholder=${String(v.rates.downtimePerHour)} />
        <button type="submit">Weigh again</button></form>
      <section aria-label="Costs"><h3>What each way is expected to cost</h3>
        <div class="scroll costs" tabindex="0" role="region" aria-label="Table of costs"><table><thead><tr><th scope="col">Way</th><th scope="col">Expected</th><th scope="col">Likely range</th><th scope="col">Cures</th><th scope="col">Access, work</th></tr></thead><tbody>
        ${worth.slice(0, MOST_WAYS).map((c, i) => html`<tr key=${c.remedy} class=${i === 0 ? "moved" : ""}><th scope="row"><b>${c.remedy}</b><span class="quiet">${c.words}</span></th>
          <td><b>${money(c.expected, v.currency)}</b></td><td>${whole(c.low)} to ${money(c.high, v.currency)}<${Range} low=${c.low / most} at=${c.expected / most} high=${c.high / most} /></td>
          <td>${percent(c.cures)}</td><td>${Math.round(c.accessMinutes)} + ${Math.round(c.workMinutes)} min</td></tr>`)}</tbody></table></div>
        ${v.costs.length > worth.length && html`<p class="quiet">${v.costs.length - worth.length} more cure nothing here (below 0.5 %) and are left out.</p>`}
        ${worth.length > MOST_WAYS && html`<p class="quiet">${worth.length - MOST_WAYS} more are dearer and left out.</p>`}</section>
      <section aria-label="Break-even"><h3>What would change the answer</h3>
        <table><thead><tr><th scope="col">Quantity</th><th scope="col">Now</th><th scope="col">Answer changes at</th><th scope="col">Then</th></tr></thead><tbody>
        ${v.breakEven.map((b) => html`<tr key=${b.quantity}><th scope="row">${plain(b.quantity)}</th><td>${figure(b.now)}</td><td>${b.at === null || b.at === undefined ? "nowhere from " + figure(b.from) + " to " + figure(b.to) : figure(b.at)}</td><td>${plain(b.becomes || "–")}</td></tr>`)}</tbody></table></section>
      ${["forced", "allowed", "forbidden"].filter((k) => v[k] && v[k].length).map((k) => html`<section key=${k} aria-label=${"Rules: " + k}><h3>${{ forced: "Rules demand", allowed: "Allowed, with what to heed", forbidden: "Rules forbid" }[k]}</h3>
        ${v[k].filter((w) => w.rulings.length).slice(0, 8).map((w) => html`<details key=${w.remedy}><summary>${w.remedy}: ${w.rulings.length} ${w.rulings.length === 1 ? "rule" : "rules"}</summary><ul>
          ${w.rulings.map((r) => html`<li key=${r.rule}><b>${r.reason}</b><span class="quiet">${r.rule}. Source: ${r.source}</span></li>`)}</ul></details>`)}</section>`)}
      <${Cautions} list=${v.cautions} />`}
  </main>`;
}

// What is recorded when somebody does as the verdict says: one repair, or two in one visit.
function chosenDraft(v) {
  const [first, second] = v.halves.length ? v.halves : [v];
  return { kind: "chose", option: first.option, place: placeText(first.place), note: v.reasons[0] || "", ...(second && { alsoOption: second.option, alsoPlace: placeText(second.place) }) };
}

function headline(v) {
  if (v.halves.length) return "Two repairs in one visit: at " + v.halves.map((h) => h.place.kind + " " + h.place.id).join(" and at ");
  const words = (v.option || "").replace(/-/g, " ");
  return words.charAt(0).toUpperCase() + words.slice(1) + (v.place ? " at " + v.place.kind + " " + v.place.id : "");
}

const plain = (word) => word.replace(/-/g, " ");

const figure = (x) => (Math.abs(x) >= 100 ? whole(x) : String(Math.round(x * 1000) / 1000));

function Range({ low, at, high }) {
  return html`<svg class="bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true"><line x1=${100 * low} x2=${100 * high} y1="5" y2="5" class="range" /><rect x=${Math.min(98, 100 * at - 1)} width="2" y="0" height="10" class="bar-fill" /></svg>`;
}

export function Job({ name, open, answer }) {
  const chosen = open.chosen.length ? [open.chosen.join(",")] : [];
  const suspected = answer ? [...new Set(answer.rank.suspects.slice(0, 3).flatMap((s) => s.places.slice(0, 2)).filter((p) => p.kind !== "engine").map(placeText))].slice(0, 4) : [];
  const near = [...new Set([...chosen, ...suspected])];
  const [kind, setKind] = useState("place");
  const [place, setPlace] = useState(null);
  const [section, setSection] = useState("");
  const wanted = place === null ? near[0] || "" : place;
  const known = (p) => open.names.places.includes(p) || open.names.rubPoints.some((r) => "rub-point:" + r.id === p);
  const usable = kind !== "place" || wanted.split(",").every((p) => known(p.trim()));
  const q = kind === "harness" ? { harness: 1 } : kind === "section" ? { section: section || open.names.sections[0] } : { place: wanted };
  const state = useAnswer(usable ? casePath(name, "/job") + query(q) : null, open.last);
  const j = state.data;
  const kinds = [["place", "Repair at a place"], ...(open.names.sections.length ? [["section", "Replace a section"]] : []), ["harness", "Replace the harness"]];
  return html`<main class="page wide">
    <h2>Job sheet</h2>
    <div class="pickers"><${Choice} label="Work" value=${kind} onChange=${setKind} options=${kinds} />
    ${kind === "place" && near.length > 0 && html`<${Choice} label=${chosen.length ? "Where it was chosen, or at what is suspected" : "At what is suspected most"} value=${wanted} onChange=${setPlace} options=${near.map((p) => [p, p.replace(/:/g, " ").replace(/,/g, " and ")])} />`}</div>
    <datalist id="places">${open.names.places.map((p) => html`<option key=${p} value=${p} />`)}${open.names.rubPoints.map((r) => html`<option key=${r.id} value=${"rub-point:" + r.id}>${r.label}</option>`)}</datalist>
    ${kind === "place" && html`<${Text} label="Place" value=${wanted} onChange=${setPlace} list="places" hint="or any other place of the harness, such as connector:C1; two with a comma between them" />`}
    ${kind === "section" && html`<${Select} label="Section" value=${section || open.names.sections[0]} onChange=${setSection} options=${open.names.sections.map((s) => [s, s])} />`}
    <${Problem} message=${state.problem} />
    ${j && html`<p><b>${j.work.words}</b>; access still closed: ${Math.round(j.accessMinutes)} minutes${j.alreadyOpen.length ? "; open already: " + j.alreadyOpen.join(", ") : ""}</p>
      <p><a class="button" target="_blank" rel="noopener" href=${casePath(name, "/job") + query({ ...q, pdf: 1 })}>Sheet to print (PDF)</a></p>
      ${[["opening", "Open"], ["unplugging", "Unplug"], ["working", "Work"], ["closing", "Close up"]].filter(([k]) => j[k] && j[k].length).map(([k, words]) => html`<section key=${k} aria-label=${words}><h3>${words}</h3><ol class="steps">
        ${j[k].map((t, i) => html`<li key=${i}><b>${t.words}</b>${t.minutes ? ", " + Math.round(t.minutes) + " minutes" : ""}${t.tools.length ? html`<span class="quiet">tools: ${t.tools.join(", ")}</span>` : ""}<${Cautions} list=${t.cautions} /></li>`)}</ol></section>`)}`}
  </main>`;
}

export function Proof({ name, open, setDraft }) {
  const worked = open.entries.some((e) => e.kind === "work" && !e.correctedBy);
  const state = useAnswer(worked ? casePath(name, "/proof") : null, open.last);
  const p = state.data;
  if (!worked) return html`<main class="page wide"><h2>Proof of the repair</h2>
    <p>No work has been recorded yet. When it has, this says what proves the repair, and whether it is proven.</p>
    <p><a class="button primary" href=${"#/case/" + encodeURIComponent(name) + "/record"} onClick=${() => setDraft({ kind: "work", back: "proof" })}>Record work</a></p></main>`;
  return html`<main class="page wide">
    <h2>Proof of the repair</h2>
    <${Problem} message=${state.problem} /><${Busy} state=${state} words="Looking at what was done" />
    ${p && html`<section class="card next" aria-label="Answer"><p class="answer">${p.answer}</p></section>
      <p><a class="button" target="_blank" rel="noopener" href=${casePath(name, "/proof") + query({ pdf: 1 })}>Sheet to print (PDF)</a></p>
      <ol class="checks">${p.checks.map((c, i) => html`<li key=${i} class=${c.state}><span class="tick" aria-hidden="true">${{ passed: "✓", failed: "✗" }[c.state] || "·"}</span>
        <div><p><b>${c.state}</b>: ${c.words}${c.found ? html`; found <b>${c.found}</b>` : ""}${c.lines.length ? " (line " + c.lines.join(", ") + ")" : ""}</p>
        ${c.caution && c.state !== "passed" && html`<${Cautions} list=${[c.caution]} />`}<p class="quiet">${c.kind}; source: ${c.source}</p></div></li>`)}</ol>
      ${p.notes && p.notes.length > 0 && html`<ul>${p.notes.map((n) => html`<li key=${n}>${n}</li>`)}</ul>`}
      ${p.afterWork && html`<section class="card" aria-label="Codes after the work"><h3>Codes after the work point at</h3><ul>${p.afterWork.suspects.map((s) => html`<li key=${s.fault}><b>${percent(s.probability)}</b> ${s.fault}${s.slip ? html` <b class="flag">a slip of the work</b>` : ""}</li>`)}</ul></section>`}`}
  </main>`;
}

export function Fit({ name, open, setup }) {
  const offered = (setup ? setup.circuits : []).map((c) => [c.file, c.title + " (" + c.file + ")"]);
  const [wanted, setWanted] = useState("");
  const state = useAnswer(wanted ? casePath(name, "/fit") + query({ new: wanted }) : null, open.last);
  const f = state.data;
  return html`<main class="page wide">
    <h2>Does a replacement fit?</h2>
    <${Select} label="Replacement harness" value=${wanted} onChange=${setWanted} hint="circuit files in the folder of cases are offered" options=${[["", "choose …"], ...offered]} />
    <${Problem} message=${state.problem} /><${Busy} state=${state} words="Comparing, cavity by cavity" />
    ${f && html`<section class="card next" aria-label="Answer"><p class="answer">${f.answer}</p></section>
      <p><a class="button" target="_blank" rel="noopener" href=${casePath(name, "/fit") + query({ new: wanted, pdf: 1 })}>Sheet to print (PDF)</a></p>
      ${f.differences && f.differences.length > 0 && html`<section aria-label="Differences"><h3>Differences</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of differences"><table><thead><tr><th scope="col">Where</th><th scope="col">What</th><th scope="col">Matters</th><th scope="col">What to do</th></tr></thead><tbody>
        ${f.differences.slice(0, 60).map((d, i) => html`<tr key=${i}><th scope="row">${d.where}</th><td>${d.what}</td><td><b>${d.severity}</b>; ${d.consequence}</td><td>${d.action}</td></tr>`)}</tbody></table></div></section>`}
      ${f.transfers && f.transfers.map((t) => html`<section key=${t.plug} aria-label=${"Transfer of plug " + t.plug}><h3>Transfer of plug ${t.plug}, one terminal at a time</h3><table><thead><tr><th scope="col">From</th><th scope="col">To</th><th scope="col">How</th></tr></thead><tbody>
        ${(t.moves || []).map((m, i) => html`<tr key=${i}><td>${m.from}</td><td>${m.to}</td><td>${m.kind}</td></tr>`)}</tbody></table></section>`)}`}
  </main>`;
}
