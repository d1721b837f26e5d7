// The one page of the phone: the cars, the walk, the card of a place, the end of the visit.
import { allHere, heldHere, keepHere } from "./outbox.js";
import { choices, fold, make } from "./parts.js";
import { beginSending, countUnsent, fetchVisit, reach } from "./sync.js";
import { cardOf } from "./card.js";
import { endOf } from "./end.js";

const main = document.getElementById("main"), line = document.getElementById("line");
const SHAPES = { "read": "\u25cf", "found and illegible": "\u25d0", "absent": "\u25cb", "not accessible": "\u25a1", "not looked for": "\u00b7" };
let now = { screen: "cars", name: "", place: "" }, visit = null, order = "walk";

function tellReach() {
  const since = reach.since ? ` since ${reach.since.slice(11, 16)}` : "";
  const unsent = reach.unsent ? `${reach.unsent} unsent${since}` : "all sent";
  const words = { "in reach": "Laptop in reach", "out of reach": "Laptop out of reach: kept here", "let go": "This phone was let go: what it holds stays here", "asking": "Looking for the laptop" };
  line.dataset.state = reach.state;
  const refused = reach.refused ? `; \u25b2 not taken: ${reach.refused}, see the end of the visit` : "";
  line.textContent = `${words[reach.state]}; ${reach.sending ? `sending ${reach.sending}` : unsent}${refused}`;
}

async function cars() {
  const held = await heldHere("notes", "hello"), known = reach.cases.length ? reach.cases : (held?.value.cases ?? []);
  return make("div", {}, make("h1", { tabindex: "-1" }, "Which car?"), make("div", { class: "walk" }, known.map((each) => make("button", { type: "button", on: { click: () => show("walk", "", each.id) } }, make("span", { class: "shape", "aria-hidden": "true" }, "\u2192"), make("span", {}, each.id)))),
    known.length ? "" : make("p", {}, "The laptop has not yet said which. Stay in its network for a moment."));
}

const ranked = () => (order === "walk" ? visit.places : [...visit.places].sort((a, b) => (a.rank || 999) - (b.rank || 999)));

function walk() {
  const open = visit.places.filter((each) => each.state === "not looked for").length;
  const one = (each) => make("button", { type: "button", "data-state": each.state, on: { click: () => show("card", each.id) } },
    make("span", { class: "shape", "aria-hidden": "true" }, SHAPES[each.state] ?? "\u00b7"), make("span", {}, `${each.number}. ${each.name}`), make("span", { class: "quiet" }, `${each.state}${each.photographs ? `, ${each.photographs} photograph${each.photographs > 1 ? "s" : ""}` : ""}`));
  return make("div", {}, make("header", {}, make("button", { type: "button", class: "plain", on: { click: () => show("cars") } }, "\u2190 Another car"), make("h1", { tabindex: "-1" }, visit.case), make("p", { class: "quiet" }, visit.car)),
    fold("Care", visit.cautions.map((each) => make("p", {}, make("b", {}, `${each.head}. `), each.says))),
    make("p", {}, open ? `${open} of ${visit.places.length} places are open.` : "Every place was looked at."), make("div", { class: "walk" }, ranked().map(one)),
    make("nav", { class: "step", "aria-label": "Order and end" }, choices("Order", [{ value: "walk", word: "as one walks" }, { value: "tells", word: "what tells most" }], order, (value) => { order = value; show("walk"); }), make("button", { type: "button", on: { click: () => show("end") } }, "End of the visit")));
}

async function show(screen, place = "", name = now.name) {
  now = { screen, name, place };
  if (name && visit?.case !== name) visit = await fetchVisit(name);
  await keepHere("notes", { name: "now", value: now }).catch(() => null);
  const at = visit?.places.findIndex((each) => each.id === place) ?? -1;
  let drawn = null;
  if (name && !visit) drawn = make("div", {}, make("h1", { tabindex: "-1" }, name), make("p", {}, "Its places have not come yet: stay in the laptop's network for a moment."), make("button", { type: "button", on: { click: () => show(screen, place, name) } }, "Try again"));
  else if (screen === "card" && at >= 0) { const behind = ranked(); drawn = cardOf(visit, visit.places[at], behind[behind.findIndex((each) => each.id === place) + 1], show); }
  else if (screen === "end" && visit) drawn = await endOf(visit, show);
  else if (screen === "walk" && visit) drawn = walk();
  else drawn = await cars();
  if (now.screen !== screen || now.place !== place) return;
  main.replaceChildren(drawn);
  window.scrollTo(0, 0);
  main.querySelector("h1")?.focus({ preventScroll: true });
}

async function begin() {
  document.addEventListener("reach", tellReach);
  document.addEventListener("noted", async () => { await countUnsent(); tellReach(); });
  await countUnsent();
  tellReach();
  beginSending();
  const before = (await heldHere("notes", "now"))?.value, held = await allHere("visits");
  if (before?.name && held.some((each) => each.case === before.name)) visit = held.find((each) => each.case === before.name);
  await show(before?.screen ?? "cars", before?.place ?? "", before?.name ?? "");
  if (!before) document.addEventListener("reach", () => { if (now.screen === "cars") show("cars"); }, { once: true });
}
begin();
