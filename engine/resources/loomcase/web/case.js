// One case: the harness with suspects and the next test, the circuit of a code, recording, the journal.
import { useEffect, useRef, useState } from "/lib/hooks.js";
import { casePath, get, query, writing } from "/api.js";
import { Bar, Cautions, Heading, html, percent, Problem, useKept, volts, when } from "/parts.js";
import { Loom } from "/loom.js";
import { form } from "/fact.js";
import { Record } from "/record.js";
import { Fit, Job, Proof, Verdict } from "/advice.js";
import { Claim } from "/claim.js";
import { HELP_SEEN, Run, TakeHelp } from "/drill.js";

const TABS = [["harness", "Harness"], ["circuit", "Circuit"], ["record", "Record"], ["verdict", "Verdict"], ["job", "Job"], ["proof", "Proof"], ["fit", "Fit"], ["claim", "Claim"], ["journal", "Journal"]];
// In the run of a drill what is done is asked for, not recorded, and nothing is repaired for money.
const RUN_TABS = [["drill", "Drill"], ["harness", "Harness"], ["circuit", "Circuit"], ["journal", "Journal"]];
const LOOK_AGAIN_MILLIS = 4000;
const AT_ONCE_MILLIS = 60;

const OTHERS = "The case has new lines, from another page or person; they are shown now.";

export const to = (name, ...rest) => "#/case/" + [name, ...rest].map(encodeURIComponent).join("/");

export function Case({ name, tab, rest, setup }) {
  const [open, setOpen] = useState(null);
  const [answer, setAnswer] = useState(null);
  const [share, setShare] = useState(null);
  const [problem, setProblem] = useState("");
  const [news, setNews] = useState("");
  const [suspect, setSuspect] = useState(1);
  const [over, setOver] = useState(false);
  const [draft, setDraft] = useKept("draft " + name, {});
  const known = useRef("");
  const turn = useRef(0);

  async function load() {
    const mine = ++turn.current;
    try {
      const { body } = await get(casePath(name));
      if (mine !== turn.current) return;
      known.current = body.last;
      if (body.run) get("/api/runs/" + encodeURIComponent(name)).then((r) => setOver(!!r.body.ending), () => {});
      const asked = body.hasCodes ? get(casePath(name, "/answer")) : null;
      // An answer that is there already comes with the case in one drawing of the page.
      const soon = asked && await Promise.race([asked.catch(() => null), new Promise((done) => setTimeout(done, AT_ONCE_MILLIS))]);
      if (mine !== turn.current) return;
      setOpen(body);
      setProblem("");
      if (!asked) { setAnswer(null); return; }
      for (let r = soon || await asked; ; r = await get(casePath(name, "/answer"))) {
        if (mine !== turn.current) return;
        if (r.status === 200) { setShare(null); setAnswer(r.body); setSuspect(1); return; }
        setShare(r.body.share);
        await new Promise((done) => setTimeout(done, 100));
      }
    } catch (e) {
      if (mine === turn.current) setProblem(e.message);
    }
  }
  useEffect(() => {
    document.title = name + " – Loomcase";
    load();
    const timer = setInterval(async () => {
      if (document.hidden || !known.current || writing()) return;
      const before = turn.current;
      try {
        const { body } = await get(casePath(name, "/last"));
        if (body.last !== known.current && before === turn.current && !writing()) {
          await load();
          setNews((own) => (own && own !== OTHERS ? own + " " : "") + OTHERS);
        }
      } catch { /* said when something is asked for */ }
    }, LOOK_AGAIN_MILLIS);
    return () => { clearInterval(timer); turn.current++; };
  }, [name]);

  if (!open) return html`<main class="page"><a class="button" href="#/">Back to cases</a><h1>${name}</h1>
    ${problem ? html`<${Problem} message=${problem} /><button onClick=${load}>Try again</button>` : html`<p class="wait">Reading the case …</p>`}</main>`;
  const recorded = (words) => { setNews(words); return load(); };
  // In a drill finding it is the student's: suspects and tests are help, and taking it stands in the run.
  const alone = open.run && !over && !open.entries.some((e) => HELP_SEEN.test(e.words));
  const shared = { name, open, answer, share, suspect, setSuspect, setup, draft, setDraft, recorded, load, alone };
  return html`<div class=${"case" + (tab === "harness" ? " fixed" : "")}>
    <header>
      <a class="button" href="#/">Cases</a>
      <div class="who"><${Heading}>${name}<//><p>${open.complaint}${open.unit ? ", unit " + open.unit : ""}</p></div>
      <nav aria-label="Case">${(open.run ? RUN_TABS : TABS).map(([id, words]) => html`<a key=${id} class=${"tab" + (id === tab ? " on" : "")}
        aria-current=${id === tab ? "page" : undefined} href=${to(name, id)}>${words}</a>`)}</nav>
    </header>
    <div class="news" role="status">${news && html`<p>${news} <button onClick=${() => setNews("")}>Good</button></p>`}</div>
    <${Problem} message=${problem} />
    ${tab === "circuit" ? html`<${Circuit} ...${shared} rest=${rest} />`
      : tab === "record" && !open.run ? html`<${Record} ...${shared} />`
      : tab === "verdict" ? html`<${Verdict} ...${shared} />`
      : tab === "job" ? html`<${Job} ...${shared} />`
      : tab === "proof" ? html`<${Proof} ...${shared} />`
      : tab === "claim" ? html`<${Claim} ...${shared} />`
      : tab === "fit" ? html`<${Fit} ...${shared} />`
      : tab === "drill" && open.run ? html`<${Run} ...${shared} />`
      : tab === "journal" ? html`<${Journal} ...${shared} />`
      : html`<${Harness} ...${shared} rest=${rest} />`}
  </div>`;
}

function Progress({ share }) {
  return html`<div class="card" role="status"><p>Weighing all faults of this harness: ${Math.round(100 * share)} %</p>
    <progress max="1" value=${share} aria-label="Faults weighed"></progress></div>`;
}

function Harness(props) {
  const { name, open, answer, share, suspect, setSuspect, rest, alone } = props;
  const [many, setMany] = useState(null);
  const picked = rest[0] || "";
  const pick = (p) => { setMany(null); location.hash = p ? to(name, "harness", p) : to(name, "harness"); };
  const choose = (f) => (open.hasCodes && answer ? pick(f.place) : null);
  return html`<main class="harness">
    <${Loom} name=${name} title=${"Harness of case " + name} stamp=${answer && !alone ? answer.last : "bare"} bare=${!answer || alone} suspect=${suspect} picked=${picked}
      focus=${answer && !alone && answer.rank.suspects[suspect - 1] ? answer.rank.suspects[suspect - 1].kind + " " + answer.rank.suspects[suspect - 1].place : ""}
      onPick=${choose} onMany=${(f) => setMany(f)} />
    <div class="side" tabindex="0" role="region" aria-label="Suspects, tests and places">
      ${many ? html`<${Which} many=${many} choose=${choose} close=${() => setMany(null)} />`
        : picked && answer ? html`<${Place} ...${props} place=${picked} close=${() => pick("")} pick=${pick} />`
        : !open.hasCodes ? html`<section class="card"><h2>No codes yet</h2><p>Read the codes of the engine; then suspects and tests appear here.</p>
            <a class="button primary" href=${to(name, "record")} onClick=${() => props.setDraft({ kind: "codes" })}>Record codes</a></section>`
        : html`${share !== null && html`<${Progress} share=${share} />`}
          ${alone ? html`<${TakeHelp} ...${props} />` : answer && html`<${Suspects} ...${props} pick=${pick} /><${Next} ...${props} /><${Codes} ...${props} />`}`}
    </div>
  </main>`;
}

function Which({ many, choose, close }) {
  return html`<section class="card" aria-label="Which one">
    <h2>Which one?</h2>
    <ul class="plain">${many.map((f) => html`<li key=${f.words}><button class="wide" onClick=${() => choose(f)}>${f.words}</button></li>`)}</ul>
    <button onClick=${close}>None of these</button>
  </section>`;
}

function Codes({ name, answer }) {
  return html`<section class="card" aria-label="Codes">
    <h2>Codes</h2>
    <ul class="chips">${answer.rank.codes.map((c) => html`<li key=${c.spn + "/" + c.fmi}>
      <a class="button" href=${to(name, "circuit", c.spn + "-" + c.fmi)} aria-label=${c.spn + "/" + c.fmi + " " + c.state + ", " + c.label}><b>${c.spn}/${c.fmi}</b>${c.state === "stored" ? " stored" : ""}${c.count ? " ×" + c.count : ""}${c.known ? "" : " not in this circuit"}</a></li>`)}</ul>
  </section>`;
}

const codeList = (codes) => (codes.length ? codes.join(", ") : "none");

function Suspects({ answer, suspect, setSuspect, pick }) {
  // Marked for whoever measures: the frame in which the suspects stand.
  useEffect(() => { requestAnimationFrame(() => setTimeout(() => performance.mark("suspects-painted"))); }, [answer.last]);
  const [all, setAll] = useState(false);
  const list = answer.rank.suspects;
  // What is hardly probable waits behind a button, so that the next test stays near.
  const few = Math.max(1, Math.min(4, list.filter((s) => s.probability >= 0.001).length));
  return html`<section class="card" aria-label="Suspects">
    <h2>Suspects</h2>
    <ol class="suspects">${list.slice(0, all ? 12 : few).map((s) => html`<li key=${s.rank}>
      <button class=${"suspect" + (s.rank === suspect ? " on" : "")} aria-pressed=${s.rank === suspect} onClick=${() => setSuspect(s.rank)}>
        <b class="rank">${s.rank}</b><span class="words"><b>${percent(s.probability)}</b> ${s.fault}</span><${Bar} share=${s.probability} />
      </button>
      ${s.rank === suspect && html`<div class="why">
        <p>Explains ${codeList(s.explains)}${s.leaves.length ? "; leaves " + codeList(s.leaves) + " unexplained" : ""}${s.predictsButAbsent.length ? "; should also set " + codeList(s.predictsButAbsent) + ", not seen" : ""}.${s.hypotheses.length > 1 ? " One of " + s.hypotheses.length + " faults that the evidence cannot tell apart." : ""}</p>
        <p class="row">${s.places.filter((p) => p.kind !== "engine").slice(0, 4).map((p) => html`<button key=${p.kind + p.id} onClick=${() => pick(p.kind + " " + p.id)}>${p.kind} ${p.id}, ${percent(p.probability)}</button>`)}</p>
        <details><summary>Evidence and cautions</summary><ul>
          ${s.evidence.map((e) => html`<li key=${e.code}>${e.code} ${e.found}: ${ratio(e.likelihoodRatio)}</li>`)}
          ${s.tests.map((t) => html`<li key=${t.test}>${t.test}: ${t.outcome}: ${ratio(t.likelihoodRatio)}</li>`)}
        </ul><${Cautions} list=${s.cautions} /></details>
      </div>`}
    </li>`)}</ol>
    ${list.length > few && html`<button onClick=${() => setAll(!all)}>${all ? "Fewer" : "More suspects"}</button>`}
    <p class="quiet">${percent(answer.rank.unexplained)} nothing in this model explains what was seen</p>
    <p class="quiet">${percent(answer.rank.hidden)} beside any of these a second fault that no code gives away; read the codes again after the repair</p>
  </section>`;
}

function ratio(r) {
  if (r >= 0.95 && r < 1.05) return "as likely on a healthy engine";
  const x = r >= 1 ? r : 1 / r;
  const words = x >= 1e6 ? "over a million" : x >= 10 ? Math.round(x).toLocaleString("en").replace(/,/g, " ") : x.toFixed(1);
  return words + " times " + (r >= 1 ? "likelier" : "less likely") + " than on a healthy engine";
}

function Next({ name, answer, setDraft }) {
  const [first, ...others] = answer.tests;
  if (!first) return html`<section class="card" aria-label="Next test"><h2>Next test</h2>
    ${answer.rank.unexplained > 0.5
      ? html`<p>No test is worth its minutes: most likely nothing in this model explains what was seen. Read the codes again, check each line of the case, and look at what the circuit file leaves out.</p>`
      : html`<p>No test is worth its minutes any more. Go to the first place.</p><${Cautions} list=${answer.rank.suspects.length ? answer.rank.suspects[0].cautions : []} />`}</section>`;
  return html`<section class="card next" aria-label="Next test">
    <h2>Next test</h2>
    <${Test} test=${first} name=${name} setDraft=${setDraft} />
    ${others.length > 0 && html`<details><summary>${others.length} other tests</summary>
      ${others.map((t) => html`<div class="other" key=${t.test}><${Test} test=${t} name=${name} setDraft=${setDraft} /></div>`)}</details>`}
  </section>`;
}

export function Test({ test, name, setDraft }) {
  return html`<p class="words"><b>${test.words}</b></p>
    <p>${Math.round(test.minutes)} minutes${test.access.length ? " with access (" + test.access.join(", ") + ")" : ", nothing to open"}; then ${Math.max(0, Math.round(test.expectedMinutes - test.minutes))} more expected to a settled case.</p>
    ${test.expectedMinutes >= test.settleNow && html`<p>It saves no minutes; it is to make sure before anybody acts.</p>`}
    <${Cautions} list=${test.cautions} />
    <table><caption>What it may show</caption><thead><tr><th scope="col">Outcome</th><th scope="col">How likely</th><th scope="col">Points at</th></tr></thead>
      <tbody>${test.outcomes.filter((o) => o.probability > 0.005).slice(0, 5).map((o) => html`<tr key=${o.outcome}><td>${o.outcome}</td><td>${percent(o.probability)}</td><td>${o.meaning}, then ${percent(o.then)}</td></tr>`)}</tbody></table>
    <p class="row"><a class="button primary" href=${to(name, "record")} onClick=${() => setDraft({ ...fromForm(test.form), note: "" })}>Record this test</a>
      <a class="button" href=${to(name, "record")} onClick=${() => setDraft({ kind: "refused", test: test.test })}>Cannot be done</a></p>`;
}

// The fields of a proposed test as the recording screen holds them.
function fromForm(f) {
  const d = { ...f };
  if (f.test) d.meter = f.test;
  if (f.place) d.place = f.place.kind + ":" + f.place.id;
  if (f.part) d.part = f.part.kind + ":" + f.part.id;
  if (f.with) d.with = f.with.kind + ":" + f.with.id;
  if (f.setup) {
    d.at = f.setup.operatingPoint;
    d.phase = f.setup.phase || "";
    d.unplugged = (f.setup.unplugged || []).join(", ");
    d.jumpers = f.setup.jumpers || [];
  }
  if (f.kind === "reading" && (f.test === "ohms" || f.test === "isolation")) d.unit = "ohm";
  return d;
}

function Place({ name, answer, place, suspect, close, pick, open, setDraft, alone }) {
  const [at, setAt] = useState("");
  const [face, setFace] = useState(null);
  const [problem, setProblem] = useState("");
  const heading = useRef(null);
  useEffect(() => {
    let live = true;
    setProblem("");
    get(casePath(name, "/place") + query({ place, suspect, at })).then(
      (r) => { if (live) { setFace(r.body); } }, (e) => live && setProblem(e.message));
    return () => { live = false; };
  }, [place, suspect, at, answer.last]);
  useEffect(() => { if (heading.current) heading.current.focus({ preventScroll: true }); }, [place, !!face]);
  if (!face) return html`<section class="card"><${Problem} message=${problem} /><button onClick=${close}>${alone ? "Back" : "Back to suspects"}</button></section>`;
  const wide = face.rows.length > 0;
  return html`<section class="card face" aria-label=${face.kind + " " + face.id}>
    <button onClick=${close}>${alone ? "Back" : "Back to suspects"}</button>
    <h2 tabindex="-1" ref=${heading}>${face.kind.replace("-", " ")} ${face.id}</h2>
    <p><b>${face.label}</b></p>
    <ul class="facts">${face.facts.map((f) => html`<li key=${f}>${f}</li>`)}</ul>
    <${Cautions} list=${face.cautions} />
    ${!alone && face.suspects.length > 0 && html`<h3>Suspected here</h3><ul class="plain lines">${face.suspects.slice(0, 6).map((f) => html`<li key=${f.rank + f.words}><b>${percent(f.probability)}</b> ${f.words}</li>`)}</ul>`}
    ${wide && html`<h3>Volts against the chassis</h3>
      <div class="choice" role="group" aria-label="Operating point">${open.names.operatingPoints.map((o) => html`<button key=${o.id} class=${(at || answer.rank.operatingPoints[0]) === o.id ? "on" : ""} aria-pressed=${(at || answer.rank.operatingPoints[0]) === o.id} onClick=${() => setAt(o.id)}>${o.label}</button>`)}</div>
      <div class="scroll" tabindex="0" role="region" aria-label="Cavities and volts"><table class="cavities"><thead><tr><th scope="col">Point and wire</th><th scope="col">Healthy</th>${!alone && html`<th scope="col">Suspect ${suspect}</th>`}<th scope="col">Measured</th></tr></thead>
        <tbody>${face.rows.map((r) => html`<tr key=${r.point} class=${!alone && moved(r) ? "moved" : ""}><th scope="row">${open.run ? html`<b>${r.point}</b>` : html`<a class="button" href=${to(name, "record")} onClick=${() => setDraft({ kind: "reading", meter: "volts", a: r.point, b: "chassis", at: at || answer.rank.operatingPoints[0], unit: "V" })} aria-label=${"Record volts at " + r.point}>${r.point}</a>`}${r.label && html`<span class="quiet">${r.label}</span>`}
            ${r.wires.length ? r.wires.map((w) => html`<span class="wire" key=${w.id}><b>${w.id}</b> ${w.size}${w.colour ? ", " + w.colour : ""} to ${w.to}<span class="quiet">${w.circuit}</span></span>`) : html`<span class="quiet">empty</span>`}</th>
          <td>${volts(r.healthy)}</td>${!alone && html`<td>${volts(r.suspected)}${moved(r) ? html` <b class="flag">differs</b>` : ""}</td>`}<td>${r.measured || "–"}</td></tr>`)}</tbody></table></div>`}
    ${!open.run && html`<h3>Record here</h3>
    <p class="row">${["Look", "Wiggle", "Work"].map((w) => html`<a key=${w} class="button" href=${to(name, "record")} onClick=${() => setDraft({ kind: { Look: "seen", Wiggle: "moved", Work: "work" }[w], place: face.kind + ":" + face.id })}>${w}</a>`)}
      ${face.kind === "connector" && html`<a class="button" href=${to(name, "record")} onClick=${() => setDraft({ kind: "watched", method: "unplug", unplugged: face.id })}>Unplug and watch</a>`}</p>`}
    ${!open.run && face.tests.length > 0 && html`<h3>Tests here</h3>${face.tests.slice(0, 3).map((t) => html`<div class="other" key=${t.test}><${Test} test=${t} name=${name} setDraft=${setDraft} /></div>`)}`}
    ${face.codes.length > 0 && html`<h3>Codes of circuits here</h3><ul class="codes">${face.codes.slice(0, 8).map((c) => html`<li key=${c.spn + "/" + c.fmi}><a class="button code" href=${to(name, "circuit", c.spn + "-" + c.fmi)}><b>${c.spn}/${c.fmi}</b> ${c.state} <span>${c.label}</span></a></li>`)}</ul>`}
    ${face.access.length > 0 && html`<h3>To reach it</h3><ul class="plain lines">${face.access.map((a) => html`<li key=${a.id}>${a.label}, ${a.minutes} minutes${a.open ? ", open already" : ""}${a.caution ? html` <b>Caution.</b> ${a.caution}` : ""}</li>`)}</ul>`}
    ${face.lines.length > 0 && html`<h3>In the journal</h3><ul class="plain lines">${face.lines.map((l) => html`<li key=${l.n}>Line ${l.n}: ${l.words}</li>`)}</ul>`}
  </section>`;
}

const moved = (r) => r.healthy !== null && r.suspected !== null && Math.abs(r.healthy - r.suspected) > 0.1;

function Circuit({ name, answer, suspect, setSuspect, rest, open, share, alone }) {
  const [data, setData] = useState(null);
  const [at, setAt] = useState("");
  const [problem, setProblem] = useState("");
  const known = answer ? answer.rank.codes.filter((c) => c.known) : [];
  const chosen = rest[0] || (known[0] ? known[0].spn + "-" + known[0].fmi : "");
  useEffect(() => {
    if (!answer || !chosen) return;
    let live = true;
    setProblem("");
    const [spn, fmi] = chosen.split("-");
    get(casePath(name, "/code") + query({ spn, fmi, suspect, at })).then((r) => live && setData(r.body), (e) => { if (live) { setProblem(e.message); setData(null); } });
    return () => { live = false; };
  }, [answer && answer.last, chosen, suspect, at]);
  if (!answer) return html`<main class="page wide">${share !== null ? html`<${Progress} share=${share} />` : html`<p class="wait">${open.hasCodes ? "Weighing …" : "No codes have been read yet."}</p>`}</main>`;
  return html`<main class="page wide">
    <div class="choice" role="group" aria-label="Code">${answer.rank.codes.map((c) => html`<a key=${c.spn + "/" + c.fmi} class=${"button" + (chosen === c.spn + "-" + c.fmi ? " on" : "")} aria-current=${chosen === c.spn + "-" + c.fmi ? "true" : undefined} href=${to(name, "circuit", c.spn + "-" + c.fmi)}>${c.spn}/${c.fmi}</a>`)}</div>
    <${Problem} message=${problem} />
    ${data && html`<h2>${data.code}: ${data.label}</h2>
      <p>${data.limit}. Volts against the chassis at ${data.operatingPoint}, ${data.phase}: healthy${alone ? "" : ", and with suspect " + suspect + ": " + (answer.rank.suspects[suspect - 1] ? answer.rank.suspects[suspect - 1].fault : "nothing wrong")}.</p>
      <div class="pickers"><div class="choice" role="group" aria-label="Operating point">${open.names.operatingPoints.map((o) => html`<button key=${o.id} class=${data.operatingPoint === o.id ? "on" : ""} aria-pressed=${data.operatingPoint === o.id} onClick=${() => setAt(o.id)}>${o.label}</button>`)}</div>
      ${!alone && html`<div class="choice" role="group" aria-label="Suspect to compare with">${answer.rank.suspects.slice(0, 4).map((s) => html`<button key=${s.rank} class=${s.rank === suspect ? "on" : ""} aria-pressed=${s.rank === suspect} onClick=${() => setSuspect(s.rank)}>Suspect ${s.rank}</button>`)}</div>`}</div>
      <div class="legs">${data.legs.map((leg, i) => html`<section key=${i} class="leg" aria-label=${leg.title}><h3>${leg.title}</h3>
        <table><thead><tr><th scope="col">Stop</th><th scope="col">Healthy</th>${!alone && html`<th scope="col">Suspect</th>`}</tr></thead><tbody>
        ${leg.stops.map((s) => html`<tr key=${s.kind + s.id + s.point} class=${"stop " + s.kind + (!alone && s.differs ? " moved" : "") + (!alone && s.share >= 0.02 ? " hot" : "")}>
          <th scope="row"><a href=${to(name, "harness", s.kind + " " + s.id)}>${s.kind} ${s.id}</a><span class="quiet">${s.words}</span>
            ${!alone && s.share >= 0.02 && html`<b class="flag">${percent(s.share)} suspected</b>`}${s.measured && html`<b class="flag">measured ${s.measured}</b>`}</th>
          ${s.point ? html`<td>${volts(s.healthy)} V</td>${!alone && html`<td>${volts(s.suspected)} V${s.differs ? html` <b class="flag">differs</b>` : ""}</td>`}` : html`<td></td>${!alone && html`<td></td>`}`}</tr>`)}
        </tbody></table></section>`)}</div>`}
  </main>`;
}

function Journal({ name, open, setDraft }) {
  const [problem, setProblem] = useState("");
  async function correct(e) {
    try {
      setDraft(await form({ name, line: { kind: e.kind, corrects: e.n }, back: "journal" }));
      location.hash = to(name, "record");
    } catch (e2) { setProblem(e2.message); }
  }
  return html`<main class="page wide">
    <h2>Journal</h2>
    <${Problem} message=${problem} />
    ${open.notices.map((n) => html`<p class="problem" key=${n}>${n}</p>`)}
    <ol class="journal">${open.entries.map((e) => html`<li key=${e.n} class=${e.correctedBy ? "gone" : ""}>
      <span class="n">${e.n}</span>
      <div><p class="words">${e.correctedBy ? html`<s>${e.words}</s>` : e.words}</p>
        <p class="quiet">${when(e.at)}, ${e.by}${e.confirmed ? "; confirmed although " + e.confirmed : ""}${e.correctedBy ? "; no longer holds: corrected by line " + e.correctedBy : ""}</p>
      </div>${!open.run && e.kind !== "correction" && html`<button onClick=${() => correct(e)} aria-label=${"Correct line " + e.n}>Correct</button>`}</li>`)}</ol>
    <p class="quiet">A line is never changed; a wrong one is corrected by a new one. Last digest, to be kept elsewhere: <code>${open.last}</code></p>
  </main>`;
}
