// Starts the page and shows the screen that the address names: #/ the cases, #/new, #/case/NAME/TAB.
import { render } from "/lib/preact.js";
import { useEffect, useState } from "/lib/hooks.js";
import { start } from "/api.js";
import { html, Problem } from "/parts.js";
import { Cases, NewCase } from "/cases.js";
import { Case } from "/case.js";
import { Drills } from "/drill.js";

// A part of an address that is no text by its own rules is taken as it stands.
function plainly(part) {
  try { return decodeURIComponent(part); } catch { return part; }
}

function here() {
  return location.hash.replace(/^#\//, "").split("/").map(plainly);
}

function App() {
  const [place, setPlace] = useState(here);
  const [setup, setSetup] = useState(null);
  const [problem, setProblem] = useState("");
  const again = () => start().then((s) => { setSetup(s); setProblem(""); }, (e) => setProblem(e.message));
  useEffect(() => {
    const moved = () => setPlace(here());
    addEventListener("hashchange", moved);
    again();
    return () => removeEventListener("hashchange", moved);
  }, []);
  if (problem) return html`<main class="page"><h1>Loomcase</h1><${Problem} message=${problem} />
    <button onClick=${again}>Try again</button></main>`;
  if (place[0] === "case" && place[1])
    return html`<${Case} key=${place[1]} name=${place[1]} tab=${place[2] || "harness"} rest=${place.slice(3)} setup=${setup} />`;
  if (!setup) return html`<p class="wait">Loomcase is starting …</p>`;
  if (place[0] === "drills") return html`<${Drills} setup=${setup} />`;
  if (place[0] === "new") return html`<${NewCase} setup=${setup} />`;
  return html`<${Cases} />`;
}

document.getElementById("app").textContent = "";
render(html`<${App} />`, document.getElementById("app"));
