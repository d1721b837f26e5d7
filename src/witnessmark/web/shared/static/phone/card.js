// The card of a place: how to reach it, what to look for, how it ended, what is read, seen and shot.
import { heldHere, jotDown, keepHere } from "./outbox.js";
import { choices, drawing, fold, large, make } from "./parts.js";
import { sendNow } from "./sync.js";
import { pictures } from "./shots.js";
import { noteKeys } from "./keys.js";
import { heard } from "./spoken.js";

const TYPED_MS = 900;
const NOT_NOW = "not looked for";

// What is noted stands in the visit that this phone holds, and in the outbox until it has arrived.
async function note(visit, place, fields, change) {
  change();
  await keepHere("visits", visit);
  await jotDown({ case: visit.case, base: visit.base, ...fields });
  place.noted = true;
  document.dispatchEvent(new CustomEvent("noted"));
  sendNow();
}

function answers(visit, place) {
  const five = visit.states.map((each) => ({ ...each, word: each.value === NOT_NOW ? "not now" : each.value === "not accessible" ? "cannot reach" : each.word }));
  const why = make("input", { id: "reason", maxlength: "2000", autocomplete: "off", value: place.reason ?? "" });
  const send = (state) => note(visit, place, { kind: "place", key: `place ${place.id}`, place: place.id, state, reason: why.value.trim() },
    () => Object.assign(place, { state, reason: why.value.trim() }));
  why.addEventListener("change", () => send(place.state));
  return make("section", { class: "ended" }, make("h2", {}, "How it ended here"),
    choices("How it ended here", five, place.state, send, true),
    make("label", { for: "reason" }, "What is to be seen there, or what is in the way"), why);
}

function reading(visit, place, mark) {
  const id = `read-${mark.id}`;
  const field = make("input", { id, class: "reading", maxlength: "500", autocomplete: "off", autocapitalize: "characters", spellcheck: "false", inputmode: "none" });
  field.value = mark.text;
  const shown = make("div", { "aria-live": "polite" }), told = make("p", { class: "quiet" });
  // Told below what is pressed next: nothing moves away from under a thumb.
  let timer = 0, chosen = mark.legibility;
  const show = () => shown.replaceChildren(field.value ? large(field.value) : "");
  async function keep() {
    clearTimeout(timer);
    if (field.value === mark.text && chosen === mark.legibility) return;
    if (field.value && !chosen) { told.textContent = "Kept here: say how well it can be read, and it is sent."; await keepHere("notes", { name: `typed ${visit.case} ${mark.id}`, value: field.value }); return; }
    told.textContent = "";
    const fields = { kind: "reading", key: `reading ${mark.id}`, mark: mark.id, text: field.value.trim(), claim_known: false };
    if (chosen) fields.legibility = chosen;
    await note(visit, place, fields, () => {
      Object.assign(mark, { text: field.value, legibility: chosen });
      if (field.value && place.state === NOT_NOW) place.state = "read";
    });
  }
  field.addEventListener("input", () => { show(); clearTimeout(timer); timer = setTimeout(keep, TYPED_MS); });
  field.addEventListener("change", keep);
  heldHere("notes", `typed ${visit.case} ${mark.id}`).then((typed) => { if (typed && !mark.text) { field.value = typed.value; show(); } });
  show();
  const spoken = make("textarea", { id: `${id}-spoken`, rows: "2", autocomplete: "off" });
  const misheard = make("p", { role: "status" });
  const take = make("button", { type: "button", class: "second", on: { click: () => {
    const found = heard(spoken.value, mark.signs);
    misheard.textContent = found.unknown.length ? `Not understood: ${found.unknown.join(", ")}. Nothing was taken.` : "";
    if (found.unknown.length || !found.text) return;
    field.value = found.text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  } } }, "Take it as the reading");
  const keyboard = make("div", { class: "keys" });
  noteKeys(keyboard, field, mark.signs, mark.windows.length > 0);
  const windows = mark.windows.length ? make("p", { class: "quiet" }, `On the plate, with | between: ${mark.windows.map((each) => each.heading).join(" | ")}`) : "";
  return make("section", { class: "mark" }, make("h2", {}, make("label", { for: id }, mark.name)),
    make("p", { class: "quiet" }, mark.form), windows, shown, field, keyboard,
    choices("How well it can be read", visit.legibility.map((value) => ({ value, word: value })), chosen, (value) => { chosen = value; keep(); }), told,
    fold("Say it instead", make("label", { for: `${id}-spoken` }, "Speak with the phone's own keyboard: “V zero two zero six delta zulu, second unsure”"), spoken, take, misheard));
}

function feature(visit, place, each) {
  const act = (outcome) => note(visit, place, { kind: "look", key: `look ${place.id} ${each.id}`, place: place.id, feature: each.id, outcome },
    () => { each.outcome = outcome; if (place.state === NOT_NOW) place.state = "read"; });
  return make("section", { class: "look" }, make("h2", {}, each.prompt),
    choices(each.prompt, each.outcomes.map(({ id, sketch }) => ({ value: id, word: id, sketch })), each.outcome, act));
}

export function cardOf(visit, place, behind, show) {
  const head = make("header", {}, make("button", { type: "button", class: "plain", on: { click: () => show("walk") } }, "\u2190 The walk"), make("h1", { tabindex: "-1" }, `${place.number}. ${place.name}`));
  const reach = fold("How to reach it", place.where.map((each) => make("p", {}, each)), make("p", { class: "quiet" }, place.effort), place.drawing ? drawing(place.drawing) : "");
  const care = place.care ? make("p", { class: "caution" }, make("b", {}, "Care. "), place.care) : "";
  const look = place.look_for.filter(Boolean).map((each) => make("p", {}, make("b", {}, "Look for. "), each));
  const next = make("nav", { class: "step", "aria-label": "Next" }, behind ? make("button", { type: "button", on: { click: () => show("card", behind.id) } }, `${behind.number}. ${behind.name} \u2192`) : make("button", { type: "button", on: { click: () => show("end") } }, "End of the visit \u2192"));
  return make("div", { class: "card" }, head, reach, care, ...look, answers(visit, place), pictures(visit, place),
    place.marks.map((each) => reading(visit, place, each)), place.features.map((each) => feature(visit, place, each)), next);
}
