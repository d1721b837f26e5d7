// What this phone holds until the laptop has it: jottings, pictures and the visits they belong to,
// in the browser's own store. Nothing is taken out before its acknowledgement has come.
const HOLDS = { jottings: "id", pictures: "sha256", visits: "case", notes: "name" };
let opening = null;

function store() {
  opening ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open("witnessmark", 1);
    asked.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(HOLDS)) asked.result.createObjectStore(name, { keyPath });
    };
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  return opening;
}

async function within(name, mode, act) {
  const opened = await store();
  return new Promise((resolve, reject) => {
    const step = opened.transaction(name, mode, mode === "readwrite" ? { durability: "strict" } : undefined);
    const asked = act(step.objectStore(name));
    step.oncomplete = () => resolve(asked.result);
    step.onabort = step.onerror = () => reject(step.error ?? asked.error);
  });
}

// Resolves when it lies in the store, rejects where the store is full.
export const keepHere = (name, value) => within(name, "readwrite", (held) => held.put(value));
export const heldHere = (name, key) => within(name, "readonly", (held) => held.get(key));
export const allHere = (name) => within(name, "readonly", (held) => held.getAll());
export const dropHere = (name, key) => within(name, "readwrite", (held) => held.delete(key));

export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((each) => each.toString(16).padStart(2, "0")).join("");
}

// The moment with its offset, as this phone's clock has it.
export function momentHere(when = new Date()) {
  const minutes = -when.getTimezoneOffset(), two = (n) => String(Math.trunc(Math.abs(n))).padStart(2, "0");
  const local = new Date(when.getTime() + minutes * 60000).toISOString().slice(0, 19);
  return `${local}${minutes < 0 ? "-" : "+"}${two(minutes / 60)}:${two(minutes % 60)}`;
}

// In the order in which they were made, whatever the clock did meanwhile.
export async function waitingHere() {
  return (await allHere("jottings")).filter((each) => !each.revision).sort((a, b) => a.order - b.order);
}

export async function jotDown(fields) {
  const last = (await heldHere("notes", "order"))?.value ?? 0;
  await keepHere("notes", { name: "order", value: last + 1 });
  const jotting = { id: newId(), at: momentHere(), ...fields, order: last + 1 };
  await keepHere("jottings", jotting);
  return jotting;
}

// Ask the phone not to throw it away by itself; what it answers is told at the end of the visit.
export async function askToKeep() {
  try { return (await navigator.storage?.persist?.()) === true; } catch { return false; }
}
