// The claim as it stands, and for each thing that is missing the form that closes the gap.
import { useState } from "/lib/hooks.js";
import { casePath, query } from "/api.js";
import { Busy, useAnswer } from "/advice.js";
import { form } from "/fact.js";
import { kindWords } from "/record.js";
import { Choice, html, Problem } from "/parts.js";

const MISSING = [["blocks", "Needed before it can be sent"], ["questioned", "Will be asked about"], ["nice", "Would be stronger with"]];

const away = (claim) => claim.photos.filter((p) => p.state === "missing").length;

export function Claim({ name, open, answer, setDraft }) {
  const [language, setLanguage] = useState("en");
  const [problem, setProblem] = useState("");
  const state = useAnswer(casePath(name, "/claim") + query({ language }), open.last);
  const c = state.data && state.data.claim;
  const first = answer && answer.rank.suspects.flatMap((s) => s.places).find((p) => p.kind !== "engine");

  async function fill(line) {
    try {
      setDraft(await form({ name, line, otherwise: first, back: "claim" }));
      location.hash = "#/case/" + encodeURIComponent(name) + "/record";
    } catch (e) { setProblem(e.message); }
  }
  return html`<main class="page wide">
    <h2>Claim</h2>
    <${Problem} message=${state.problem || problem} /><${Busy} state=${state} words="Putting the claim together" />
    ${c && html`<section class="card next" aria-label="Answer"><p class="answer">${c.canBeSent ? "The claim can be sent." : "The claim cannot be sent yet."}</p>
        <p><a class=${"button" + (c.canBeSent ? " primary" : "")} target="_blank" rel="noopener" href=${casePath(name, "/claim") + query({ language, pdf: 1 })}>${c.canBeSent ? "Claim to send (PDF)" : "Draft to read (PDF)"}</a></p>
        ${c.proof && html`<p>Proof of the repair: ${c.proof.passed} of ${c.proof.checks} checks on record as passed.</p>`}
        ${away(c) > 0 && html`<p class="problem">${away(c) === 1 ? "One photo file is" : `${away(c)} photo files are`} not beside the case.</p>`}
        ${c.contradictions.length > 0 && html`<h3>Contradictions</h3>${c.contradictions.map((p, i) => html`<p class="problem" key=${i}>${p.text} [${p.lines.join(", ")}]</p>`)}`}
        ${MISSING.map(([severity, words]) => html`<${Gaps} key=${severity} words=${words} most=${severity === "blocks" ? Infinity : UNFOLDED} fill=${fill} gaps=${c.gaps.map((g, i) => ({ ...g, line: state.data.closing[i] })).filter((g) => g.severity === severity)} />`)}
      </section>
      <${Choice} label="Language of the claim" value=${language} onChange=${setLanguage} options=${[["en", "English"], ["de", "Deutsch"]]} />
      <${Packet} c=${c} />`}
  </main>`;
}

// What blocks is always there; of the rest, much of one kind stays folded.
const UNFOLDED = 6;

function Gaps({ words, gaps, most, fill }) {
  const [all, setAll] = useState(false);
  if (!gaps.length) return null;
  const shown = all ? gaps : gaps.slice(0, most);
  return html`<h3>${words}</h3><ul class="gaps">${shown.map((g) => html`<li key=${g.rule + g.text}>
      <div><p><b>${g.text}</b></p><p class="quiet">${g.rule}. Source: ${g.source}</p></div>
      ${g.line && html`<button onClick=${() => fill(g.line)} aria-label=${label(g.line) + ": " + g.text}>${label(g.line)}</button>`}</li>`)}</ul>
    ${gaps.length > shown.length && html`<button onClick=${() => setAll(true)}>${gaps.length - shown.length} more</button>`}`;
}

const label = (line) => (line.kind === "opened" ? kindWords(line.kind) : line.corrects ? "Complete line " + line.corrects : line.like ? "Measure again" : kindWords(line.kind));

function Packet({ c }) {
  const phrases = (list) => html`<p>${list.map((p, i) => html`<span key=${i}>${p.text}${p.lines.length ? html` <span class="hint-in">[${p.lines.join(", ")}]</span>` : ""} </span>`)}</p>`;
  return html`${[["complaint", "Complaint"], ["cause", "Cause"], ["correction", "Correction"]].map(([k, words]) => html`<section key=${k} aria-label=${words}><h3>${words}</h3>${c[k].length ? phrases(c[k]) : html`<p>nothing recorded yet</p>`}</section>`)}
    ${c.readings.length > 0 && html`<section aria-label="Readings"><h3>Readings</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of readings"><table><thead><tr><th scope="col">When</th><th scope="col">Reading</th><th scope="col">Shown</th><th scope="col">Limit</th></tr></thead><tbody>
      ${c.readings.map((r) => html`<tr key=${r.line}><td>${r.stage} (line ${r.line})</td><td>${r.test} ${r.a} to ${r.b}</td><td><b>${r.shown}</b></td><td>${r.limit || "–"}${r.judged === "out" ? html` <b class="flag">out</b>` : ""}</td></tr>`)}</tbody></table></div></section>`}
    <${Bill} bill=${c.bill} />
    <p class="quiet">Numbers in brackets are lines of the journal.</p>`;
}

function Bill({ bill }) {
  if (!bill.labour.length && !bill.parts.length) return null;
  return html`<section aria-label="Bill"><h3>Labour and parts, ${bill.currency}</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of labour and parts"><table><thead><tr><th scope="col">What</th><th scope="col">How much</th><th scope="col">Amount</th></tr></thead><tbody>
    ${bill.labour.map((l, i) => html`<tr key=${"l" + i}><td>${l.text} [${l.lines.join(", ")}]</td><td>${l.minutes} min</td><td>${l.amount}</td></tr>`)}
    ${bill.parts.map((l) => html`<tr key=${l.line}><td>${l.name}${l.number ? ", " + l.number : ""} [${l.line}]${l.tag ? ", kept, tag " + l.tag : ""}</td><td>${l.quantity}</td><td>${l.amount || "no price"}</td></tr>`)}
    <tr><th scope="row"><b>Total</b></th><td></td><td><b>${bill.total}</b></td></tr></tbody></table></div></section>`;
}
