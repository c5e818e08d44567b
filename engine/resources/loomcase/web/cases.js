// The list of cases, and a new one.
import { useEffect, useState } from "/lib/hooks.js";
import { casePath, get, postJson, postLog, query, start } from "/api.js";
import { machine, written } from "/fact.js";
import { MachineFields } from "/record.js";
import { Choice, Heading, html, Many, Problem, Select, Text, useKept, useName, when } from "/parts.js";

export function Cases() {
  const [list, setList] = useState(null);
  const [problem, setProblem] = useState("");
  useEffect(() => {
    document.title = "Cases – Loomcase";
    get("/api/cases").then((r) => setList(r.body), (e) => setProblem(e.message));
  }, []);
  return html`<main class="page">
    <div class="head-row"><${Heading}>Cases<//><span class="row"><a class="button" href="#/drills">Drills</a><a class="button primary" href="#/new">New case</a></span></div>
    <${Problem} message=${problem} />
    ${!list && !problem && html`<p class="wait">Reading the folder …</p>`}
    ${list && !list.length && html`<p class="empty">No case in this folder yet. Open one when an engine comes in.</p>`}
    <ul class="cases">${(list || []).map((c) => html`<li key=${c.name}>${c.problem
      ? html`<div class="case-card broken"><strong>${c.name}</strong><p class="problem">${c.problem}</p></div>`
      : html`<a class="case-card" href=${"#/case/" + encodeURIComponent(c.name) + (c.run ? "/drill" : "")}>
          <strong>${c.run ? "Drill: " : ""}${c.name}${!c.run && c.unit ? ", unit " + c.unit : ""}</strong>
          <span class="short">${c.complaint}</span>
          <span class="quiet">${c.circuit}</span>
          <span class="quiet">opened ${when(c.opened)}, ${c.lines} ${c.lines === 1 ? "line" : "lines"}${c.hasCodes ? "" : ", no codes read yet"}</span>
        </a>`}</li>`)}
    </ul>
  </main>`;
}

const EMPTY = { name: "", circuit: "", complaint: "", unit: "", hours: "", serial: "", inService: "", distance: "", source: "typed", active: "", stored: "", at: [] };

export function NewCase({ setup }) {
  const [form, setForm] = useKept("new-case", EMPTY);
  const [by, setBy] = useName(setup.user);
  const [file, setFile] = useState(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState("");
  // A case that is open already while its log is not read yet: what was said of the engine stands in it.
  const [made, setMade] = useKept("new-case-made", null);
  const set = (field) => (value) => setForm({ ...form, [field]: value });
  useEffect(() => { document.title = "New case – Loomcase"; start(); }, []);
  const circuit = setup.circuits.find((c) => c.file === form.circuit) || setup.circuits[0];

  async function open(e) {
    e.preventDefault();
    setProblem("");
    const typed = form.source === "typed";
    let opened = made;
    if (!typed && !file) return setProblem("choose a log file, or type the codes");
    if (typed && !form.active.trim() && !form.stored.trim()) return setProblem("type the codes that were read; put 'none' when there were none");
    try {
      setBusy("Opening the case …");
      const none = (t) => (t.trim() === "none" ? "" : t.trim());
      const codes = { active: none(form.active), stored: none(form.stored), at: form.at };
      if (!opened) {
        const body = { name: form.name.trim(), circuit: circuit.file, complaint: form.complaint, by, ...machine(form), ...(typed && { codes }) };
        const { last } = (await postJson("/api/cases", written(body))).body;
        opened = { name: form.name.trim(), last };
        if (!typed) setMade(opened);
      } else if (typed) await postJson(casePath(opened.name, "/codes"), { last: opened.last, by, ...codes });
      if (!typed) {
        setBusy("Reading the log …");
        await postLog(casePath(opened.name, "/log") + query({ last: opened.last, by, at: form.at.join(",") }), file);
      }
      setForm(EMPTY);
      setMade(null);
      for (const kept of ["new-case", "new-case-made"]) sessionStorage.removeItem(kept);
      location.hash = "#/case/" + encodeURIComponent(opened.name);
    } catch (e2) {
      if (opened && e2.status === 409) { setMade(null); location.hash = "#/case/" + encodeURIComponent(opened.name); }
      setProblem(e2.message);
    } finally {
      setBusy("");
    }
  }

  if (!circuit) return html`<main class="page"><a class="button" href="#/">Back to cases</a><${Heading}>New case<//>
    <${Problem} message="There is no circuit file to choose from. Put one into the folder of cases, or start the server with --circuit FILE." /></main>`;
  return html`<main class="page">
    <a class="button" href="#/">Back to cases</a>
    <${Heading}>New case<//>
    <form onSubmit=${open} class="form two">
      <section aria-label="Engine">
        <h2>Engine</h2>
        ${made && html`<p class="problem" role="status">Case ${made.name} is open, but its codes are missing. What you see here stands in it; <a href=${"#/case/" + encodeURIComponent(made.name) + "/journal"} onClick=${() => { setMade(null); setForm(EMPTY); }}>its journal</a> is where to correct that.</p>`}
        <fieldset class="bare" disabled=${!!made}>
        <${Select} label="Circuit" value=${circuit.file} onChange=${set("circuit")}
          options=${setup.circuits.map((c) => [c.file, c.title])} />
        <${Text} label="Complaint" value=${form.complaint} onChange=${set("complaint")} hint="what the driver or customer says" required />
        <${Text} label="Case name" value=${form.name} onChange=${set("name")} hint="names the case file: letters, digits, - and _" required
          pattern="[A-Za-z0-9][A-Za-z0-9_\\-]*" maxlength="60" />
        <${MachineFields} d=${form} set=${set} folded />
        <${Text} label="Recorded by" value=${by} onChange=${setBy} required />
        </fieldset>
      </section>
      <section aria-label="Codes">
        <h2>Codes</h2>
        <${Choice} label="Where from" value=${form.source} onChange=${set("source")}
          options=${[["typed", "Type them"], ["log", "CAN log"]]} />
        ${form.source === "typed"
          ? html`<${Text} label="Active codes" value=${form.active} onChange=${set("active")} hint="SPN/FMI with commas, counts where known: 110/3, 100/4x2; or none" />
            <${Text} label="Stored codes" value=${form.stored} onChange=${set("stored")} hint="the same way" />`
          : html`<div class="field drop" onDragOver=${(e) => e.preventDefault()}
              onDrop=${(e) => { e.preventDefault(); setFile(e.dataTransfer.files[0] || null); }}>
              <label for="log">Log file in a candump text form</label>
              <input id="log" type="file" accept=".log,.txt,text/plain" onChange=${(e) => setFile(e.currentTarget.files[0] || null)} />
              <p class="hint">${file ? file.name + ", " + Math.ceil(file.size / 1024) + " kB" : "choose it, or drop it here; at most 32 MB"}</p>
            </div>`}
        <${Many} label="Looked at with the engine (leave open when not known)" value=${form.at} onChange=${set("at")}
          options=${circuit.operatingPoints.map((o) => [o.id, o.label])} />
        <${Problem} message=${problem} />
        <button class="primary" type="submit" disabled=${!!busy}>${busy || (made ? "Add codes" : "Open case")}</button>
      </section>
    </form>
  </main>`;
}
