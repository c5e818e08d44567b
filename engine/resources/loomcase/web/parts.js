// Pieces that every screen uses.
import { h } from "/lib/preact.js";
import { useEffect, useRef, useState } from "/lib/hooks.js";
import htm from "/lib/htm.js";

export const html = htm.bind(h);

// Probabilities as the command line writes them.
export function percent(p) {
  const x = 100 * p;
  if (x > 99.5 && x < 99.995) return ">99 %";
  if (x >= 1) return x.toFixed(0) + " %";
  if (x >= 0.1) return x.toFixed(1) + " %";
  return "<0.1 %";
}

export const volts = (v) => (v === null || v === undefined ? "–" : (Math.abs(v) < 0.0005 ? 0 : v).toFixed(2));

export function Bar({ share }) {
  return html`<svg class="bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
    <rect x="0.5" y="0.5" width="99" height="9" class="bar-room" />
    <rect x="0" y="0" width=${Math.max(1.5, 100 * share)} height="10" class="bar-fill" />
  </svg>`;
}

export function Cautions({ list }) {
  if (!list || !list.length) return null;
  return html`<div class="cautions"><strong>Caution</strong><ul>${list.map((c) => html`<li key=${c}>${c}</li>`)}</ul></div>`;
}

export function Problem({ message }) {
  return message ? html`<p class="problem" role="alert">${message}</p>` : null;
}

let fields = 0;
export function Field({ label, hint, children }) {
  const id = useRef("f" + ++fields).current;
  return html`<div class="field">
    <label for=${id}>${label}</label>
    ${children(id, hint ? id + "-hint" : undefined)}
    ${hint && html`<p class="hint" id=${id + "-hint"}>${hint}</p>`}
  </div>`;
}

export function Text({ label, hint, value, onChange, list, ...rest }) {
  return html`<${Field} label=${label} hint=${hint}>
    ${(id, by) => html`<input type="text" id=${id} aria-describedby=${by} value=${value || ""} list=${list}
      autocomplete="off" autocapitalize="off" spellcheck=${false}
      onInput=${(e) => onChange(e.currentTarget.value)} ...${rest} />`}
  <//>`;
}

export function Select({ label, hint, value, onChange, options }) {
  return html`<${Field} label=${label} hint=${hint}>
    ${(id, by) => html`<select id=${id} aria-describedby=${by} value=${value} onChange=${(e) => onChange(e.currentTarget.value)}>
      ${options.map(([v, words]) => html`<option key=${v} value=${v} selected=${v === value}>${words}</option>`)}
    </select>`}
  <//>`;
}

// One of a few, each a big button; a radio group for a reader.
export function Choice({ label, value, onChange, options }) {
  const name = useRef("c" + ++fields).current;
  return html`<fieldset class="choice"><legend>${label}</legend>
    ${options.map(([v, words]) => html`<label key=${v} class=${v === value ? "on" : ""}>
      <input type="radio" name=${name} value=${v} checked=${v === value} onChange=${() => onChange(v)} />${words}
    </label>`)}
  </fieldset>`;
}

export function Many({ label, value, onChange, options }) {
  const flip = (v) => onChange(value.includes(v) ? value.filter((x) => x !== v) : [...value, v]);
  return html`<fieldset class="choice"><legend>${label}</legend>
    ${options.map(([v, words]) => html`<label key=${v} class=${value.includes(v) ? "on" : ""}>
      <input type="checkbox" value=${v} checked=${value.includes(v)} onChange=${() => flip(v)} />${words}
    </label>`)}
  </fieldset>`;
}

// A value that outlives a reload of the page until the window is closed.
export function useKept(key, initial) {
  const [value, setValue] = useState(() => {
    const kept = sessionStorage.getItem(key);
    return kept === null ? initial : JSON.parse(kept);
  });
  useEffect(() => sessionStorage.setItem(key, JSON.stringify(value)), [key, value]);
  return [value, setValue];
}

export function useName(user) {
  const [name, setName] = useState(() => localStorage.getItem("by"));
  return [name === null ? user || "" : name, (n) => { localStorage.setItem("by", n); setName(n); }];
}

// The heading of a screen takes the focus when the screen appears, so that a reader starts there.
export function Heading({ children }) {
  const here = useRef(null);
  useEffect(() => here.current.focus({ preventScroll: true }), []);
  return html`<h1 tabindex="-1" ref=${here}>${children}</h1>`;
}

export const when = (iso) => iso.slice(0, 16).replace("T", " ");
