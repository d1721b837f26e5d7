// Asks the worker how good a picture is; where there is none the page does it itself.
import { advised, measured } from "./judging.js";

let worker = null, count = 0;
const asked = new Map();

function atWork() {
  if (worker !== null) return worker;
  try {
    worker = new Worker(new URL("./judge-worker.js", import.meta.url), { type: "module" });
    worker.addEventListener("message", ({ data }) => { asked.get(data.id)?.(data.found); asked.delete(data.id); });
    worker.addEventListener("error", () => { worker = false; for (const [id, done] of asked) { done(null); asked.delete(id); } });
  } catch { worker = false; }
  return worker;
}

export async function judged(picture, region) {
  const there = atWork();
  if (there) {
    const id = count += 1;
    const found = await new Promise((done) => { asked.set(id, done); there.postMessage({ id, picture, region }); });
    if (found) return found;
  }
  return advised(measured(picture, region));
}
