// Sends what is held when the laptop is in reach: pictures first, each under its digest, then what
// speaks of them, in order. Whatever breaks off is sent again under the same id, which does no harm.
import { allHere, dropHere, heldHere, keepHere, waitingHere } from "./outbox.js";

const AGAIN_MS = 4000, LONGEST_MS = 60000, IN_ONE_GO = 20;
const OWN = new Set(["order", "revision", "problems", "key"]);
let token = "", wait = AGAIN_MS, timer = 0, busy = false;
export const reach = { state: "asking", unsent: 0, refused: 0, since: "", sending: "", by: "", cases: [], ahead: 0 };

const tell = () => document.dispatchEvent(new CustomEvent("reach"));

async function ask(path, given = {}) {
  const answer = await fetch(path, { credentials: "same-origin", redirect: "error", cache: "no-store", ...given });
  if (answer.status === 410) { reach.state = "let go"; tell(); throw new Error("let go"); }
  return answer;
}

async function hello() {
  const told = await (await ask("/phone/hello")).json();
  token = told.token;
  Object.assign(reach, { by: told.by, cases: told.cases, ahead: told.ahead });
  await keepHere("notes", { name: "hello", value: { by: told.by, cases: told.cases, ahead: told.ahead } });
}

export async function fetchVisit(name) {
  try {
    const answer = await ask(`/phone/visits/${encodeURIComponent(name)}`);
    if (answer.ok) {
      const found = await answer.json();
      await keepHere("visits", found);
      return found;
    }
  } catch { /* out of reach: what is held serves */ }
  return heldHere("visits", name);
}

export async function fetchEnd(name) {
  try {
    const answer = await ask(`/phone/visits/${encodeURIComponent(name)}/end`);
    return answer.ok ? await answer.json() : null;
  } catch { return null; }
}

async function sendPicture(picture) {
  const form = new FormData();
  form.append("picture", picture.blob, picture.name || "photo.jpg");
  const answer = await ask(`/phone/pictures/${picture.sha256}`, { method: "POST", body: form, headers: { "X-CSRFToken": token } });
  if (!answer.ok) return answer.status === 409 || answer.status >= 500 ? "again" : (await answer.json()).problems.join(" ");
  const kept = await answer.json();
  if (kept.sha256 !== picture.sha256) return "again";
  await keepHere("pictures", { ...picture, acknowledged: true });
  return "";
}

async function sendPictures() {
  const left = (await allHere("pictures")).filter((each) => !each.acknowledged && !each.refused);
  for (const [at, each] of left.entries()) {
    reach.sending = `picture ${at + 1} of ${left.length}`;
    tell();
    const fault = await sendPicture(each);
    if (fault === "again") throw new Error("again");
    if (fault) await keepHere("pictures", { ...each, refused: fault });
  }
}

// A picture goes from this phone when the laptop has named its digest and the case speaks of it.
async function settle(jotting, answer) {
  if (answer.problems) return keepHere("jottings", { ...jotting, problems: answer.problems });
  await keepHere("jottings", { ...jotting, revision: answer.revision, problems: undefined });
  if (jotting.key) await keepHere("notes", { name: `base ${jotting.case} ${jotting.key}`, value: answer.revision });
  const picture = jotting.sha256 && (await heldHere("pictures", jotting.sha256));
  if (picture?.acknowledged) await dropHere("pictures", jotting.sha256);
}

// Each is sent from the revision that had its own last text, so that nobody meets themselves.
async function asSent(jotting) {
  const base = jotting.key && (await heldHere("notes", `base ${jotting.case} ${jotting.key}`))?.value;
  const sent = Object.fromEntries(Object.entries(jotting).filter(([name]) => !OWN.has(name)));
  return { ...sent, base: Math.max(jotting.base, base || 0) };
}

async function sendJottings() {
  for (;;) {
    const waiting = (await waitingHere()).filter((each) => !each.problems);
    // One of a kind at a time: the second text of a reading goes from where the first arrived.
    const keys = new Set(), next = [];
    for (const each of waiting) {
      if (each.key && keys.has(`${each.case} ${each.key}`)) continue;
      keys.add(`${each.case} ${each.key}`);
      next.push(each);
      if (next.length === IN_ONE_GO) break;
    }
    if (!next.length) return;
    reach.sending = `${waiting.length} notes`;
    tell();
    const body = JSON.stringify({ format: "witnessmark-jottings", format_version: 1, jottings: await Promise.all(next.map(asSent)) });
    const answer = await ask("/phone/jottings", { method: "POST", body, headers: { "X-CSRFToken": token, "Content-Type": "application/json" } });
    if (answer.status === 422) {
      const { problems } = await answer.json();
      for (const each of next) await settle(each, { problems });
      continue;
    }
    if (!answer.ok) throw new Error("again");
    const { jottings } = await answer.json();
    const byId = new Map(jottings.map((each) => [each.id, each]));
    for (const each of next) if (byId.has(each.id)) await settle(each, byId.get(each.id));
  }
}

export async function countUnsent() {
  const all = await waitingHere(), waiting = all.filter((each) => !each.problems);
  reach.unsent = waiting.length;
  reach.refused = all.length - waiting.length;
  reach.since = waiting[0]?.at ?? "";
}

export async function sendNow() {
  if (busy || reach.state === "let go") return;
  busy = true;
  clearTimeout(timer);
  try {
    await hello();
    reach.state = "in reach";
    await sendPictures();
    await sendJottings();
    wait = AGAIN_MS;
  } catch {
    if (reach.state !== "let go") reach.state = "out of reach";
    wait = Math.min(LONGEST_MS, wait * 2);
  }
  reach.sending = "";
  busy = false;
  await countUnsent();
  tell();
  timer = setTimeout(sendNow, reach.unsent || reach.state !== "in reach" ? wait : LONGEST_MS);
}

export function beginSending() {
  window.addEventListener("online", () => { wait = AGAIN_MS; sendNow(); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) sendNow(); });
  sendNow();
}
