// Requests to the server this page came from. A refusal is thrown as {status, message, confirm}.

let token = "";

async function reply(response) {
  const type = response.headers.get("Content-Type") || "";
  const body = type.startsWith("application/json") ? await response.json() : await response.text();
  if (response.ok) return { status: response.status, body };
  throw { status: response.status, message: body.message || "the server answered " + response.status, confirm: body.confirm };
}

function gone() {
  throw { status: 0, message: "The server does not answer. Nothing is lost: what was recorded stands in the case file, what you typed is kept here. Start the server again, then try again." };
}

const EARLY_MILLIS = 5000;

// What was asked for before the page was there is taken once, while it is new.
function early(path) {
  const e = window.early;
  if (!e || !e.asked[path] || Date.now() - e.at > EARLY_MILLIS) return null;
  const asked = e.asked[path];
  delete e.asked[path];
  return asked.catch(() => fetch(path, { cache: "no-cache" }));
}

export async function get(path) {
  return reply(await (early(path) || fetch(path, { cache: "no-cache" })).catch(gone));
}

export async function getText(path) {
  const response = await fetch(path, { cache: "no-cache" }).catch(gone);
  if (!response.ok) await reply(response);
  return response.text();
}

export async function start() {
  const { body } = await get("/api/start");
  token = body.token;
  return body;
}

async function send(path, type, content) {
  const headers = { "Content-Type": type, "X-Loomcase-Token": token };
  return reply(await fetch(path, { method: "POST", headers, body: content }).catch(gone));
}

let writes = 0;

// Whether this page is writing right now: a case that changes then changes by its own hand.
export const writing = () => writes > 0;

// A server that was started anew has a new token; it is fetched once and the request made again.
async function post(path, type, content) {
  writes++;
  try {
    return await send(path, type, content);
  } catch (e) {
    if (e.status !== 403) throw e;
    await start();
    return await send(path, type, content);
  } finally {
    writes--;
  }
}

export const postJson = (path, value) =>
  post(path, "application/json", typeof value === "string" ? value : JSON.stringify(value));
export const postLog = (path, file) => post(path, "text/plain", file);
export const postPhoto = (path, file) => post(path, file.type, file);

export const casePath = (name, rest = "") => "/api/cases/" + encodeURIComponent(name) + rest;

export function query(values) {
  const q = new URLSearchParams();
  for (const [k, v] of Object.entries(values)) if (v !== undefined && v !== null && v !== "") q.set(k, v);
  return "?" + q;
}
