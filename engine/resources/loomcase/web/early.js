// Runs before anything else of the page is there: what the first screen of a case needs is asked for at once.
(() => {
  const named = /^#\/case\/([^/]+)(\/harness)?$/.exec(location.hash);
  if (!named) return;
  const path = "/api/cases/" + named[1];
  const ask = (p) => fetch(p, { cache: "no-cache" });
  const early = { at: Date.now(), asked: {} };
  const answer = ask(path + "/answer");
  early.asked[path] = ask(path);
  early.asked[path + "/answer"] = answer;
  // The drawing with suspects takes as long as they do, so it is asked for only when they are there.
  early.asked[path + "/loom?suspect=1"] = answer.then((r) => (r.status === 200 ? ask(path + "/loom?suspect=1") : Promise.reject(r)));
  for (const p of Object.values(early.asked)) p.catch(() => {});
  window.early = early;
})();
