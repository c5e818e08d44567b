// The drawing of the harness: zoom, touch with a glove, keys, and the place that is pointed at.
import { useEffect, useLayoutEffect, useRef, useState } from "/lib/hooks.js";
import { casePath, get, query } from "/api.js";
import { html } from "/parts.js";

const SAMPLES = [[0, 0]];
for (const r of [9, 18]) for (let k = 0; k < 8; k++) SAMPLES.push([r * Math.cos((k * Math.PI) / 4), r * Math.sin((k * Math.PI) / 4)]);

const target = (node) => node.closest && node.closest("g[data-place], g[data-rub]");

function describe(g) {
  const place = g.dataset.place || (g.dataset.branch ? "branch " + g.dataset.branch : "");
  return { place, rub: g.dataset.rub || "", words: g.getAttribute("aria-label") };
}

// Frames do not come while the page is not shown.
const nextFrame = () => new Promise((done) => (document.hidden ? done() : requestAnimationFrame(() => setTimeout(done))));

// A drawing that is drawn anew keeps the focus on the place that had it.
function focusAgain(svg, held) {
  const same = (g) => g.dataset.place === held.dataset.place && g.dataset.rub === held.dataset.rub && g.dataset.branch === held.dataset.branch;
  const again = [...svg.querySelectorAll("g[data-place], g[data-rub]")].find(same);
  if (again) again.focus({ preventScroll: true });
}

// Everything within a fingertip, the thing under its middle first.
function near(x, y, reach) {
  const found = new Map();
  for (const [dx, dy] of reach ? SAMPLES : SAMPLES.slice(0, 1))
    for (const el of document.elementsFromPoint(x + dx, y + dy)) {
      const g = target(el);
      if (g) { found.set(g.getAttribute("aria-label"), describe(g)); break; }
    }
  return [...found.values()].filter((f) => f.place);
}

export function Loom({ name, stamp, bare, suspect, picked, focus, onPick, onMany, title }) {
  const room = useRef(null);
  const sheet = useRef(null);
  const [zoom, setZoom] = useState(null);
  const [ready, setReady] = useState(0);

  useEffect(() => {
    let live = true;
    get(casePath(name, "/loom") + query(bare ? { bare: 1 } : { suspect })).then(async (r) => {
      // The first drawing is large: what stands beside it is shown a frame earlier.
      if (live && !sheet.current.firstElementChild) await nextFrame();
      if (!live) return;
      const svg = new DOMParser().parseFromString(r.body, "image/svg+xml").documentElement;
      const held = sheet.current.contains(document.activeElement) && target(document.activeElement);
      sheet.current.replaceChildren(document.adoptNode(svg));
      if (held) focusAgain(svg, held);
      setReady((n) => n + 1);
      performance.mark("drawing-there");
    }, () => {});
    return () => { live = false; };
  }, [name, stamp, bare, suspect]);

  // Letters stay readable at arm's length: a fifth more than their own size, more where there is room.
  useLayoutEffect(() => {
    const svg = sheet.current.firstElementChild;
    if (!svg) return;
    const [, , w, hgt] = svg.getAttribute("viewBox").split(" ").map(Number);
    const whole = Math.min((room.current.clientWidth - 2) / w, (room.current.clientHeight - 2) / hgt);
    const scale = zoom === "whole" ? whole : zoom || Math.max(1.2, Math.min(1.4, whole));
    svg.style.width = Math.round(w * scale) + "px";
    svg.style.height = Math.round(hgt * scale) + "px";
  }, [zoom, ready]);

  // The place that matters is brought into view, and framed when it was picked.
  useEffect(() => {
    const svg = sheet.current.firstElementChild;
    if (!svg) return;
    svg.querySelectorAll(".frame").forEach((f) => f.remove());
    const of = (p) => p && svg.querySelector('g[data-place="' + CSS.escape(p) + '"]');
    const cavity = (p) => p && p.startsWith("cavity ") && "connector " + p.slice(7).split("/")[0];
    const find = (p) => of(p) || of(cavity(p));
    // A branch may reach across the sheet; its label says where it is.
    const mark = (p) => (p && p.startsWith("branch ") && find(p) ? find(p).querySelector("text") : find(p));
    const g = mark(picked);
    if (!g && !bare && mark(focus)) show(room.current, mark(focus));
    if (g) {
      const b = g.getBBox();
      const f = document.createElementNS("http://www.w3.org/2000/svg", "rect");
      f.setAttribute("class", "frame");
      for (const [k, v] of Object.entries({ x: b.x - 4, y: b.y - 4, width: b.width + 8, height: b.height + 8 })) f.setAttribute(k, v);
      svg.append(f);
      show(room.current, g);
    }
  }, [picked, ready]);

  function click(e) {
    const touch = e.pointerType === "touch" || e.pointerType === "pen";
    const found = near(e.clientX, e.clientY, touch);
    if (found.length === 1) onPick(found[0]);
    else if (found.length) onMany(found);
  }
  function key(e) {
    const g = (e.key === "Enter" || e.key === " ") && target(e.target);
    if (!g) return;
    e.preventDefault();
    const d = describe(g);
    if (d.place) onPick(d);
  }
  const now = () => {
    const svg = sheet.current.firstElementChild;
    return svg ? parseFloat(svg.style.width) / Number(svg.getAttribute("viewBox").split(" ")[2]) : 1;
  };
  return html`<section class="loom" aria-label=${title}>
    <div class="loom-tools">
      <button onClick=${() => setZoom(Math.min(3, now() * 1.3))} aria-label="Larger">+</button>
      <button onClick=${() => setZoom(Math.max(0.3, now() / 1.3))} aria-label="Smaller">−</button>
      <button onClick=${() => setZoom("whole")} aria-label="Whole loom">Whole</button>
    </div>
    <div class="loom-room" ref=${room} tabindex="0" role="region" aria-label="Drawing, scrolls">
      <div ref=${sheet} onClick=${click} onKeyDown=${key}></div>
    </div>
  </section>`;
}

function show(room, g) {
  const r = room.getBoundingClientRect();
  const b = g.getBoundingClientRect();
  room.scrollLeft += (b.left + b.right) / 2 - (r.left + r.right) / 2;
  room.scrollTop += (b.top + b.bottom) / 2 - (r.top + r.bottom) / 2;
}
