// The end of a visit: what is open, what does not fit, what the owner said and signed, what is unsent.
import { digestOf } from "./sha256.js";
import { allHere, askToKeep, heldHere, jotDown, keepHere, newId } from "./outbox.js";
import { fold, make } from "./parts.js";
import { fetchEnd, reach, sendNow } from "./sync.js";

const OPEN = "not looked for";

function signature() {
  const canvas = make("canvas", { class: "sign", "aria-label": "Sign here with a finger" });
  [canvas.width, canvas.height] = [640, 240];
  const paint = canvas.getContext("2d");
  let from = null, signed = false;
  const blank = () => { paint.fillStyle = "#fff"; paint.fillRect(0, 0, 640, 240); signed = false; };
  const at = (event) => { const box = canvas.getBoundingClientRect(); return [(event.clientX - box.left) * 640 / box.width, (event.clientY - box.top) * 240 / box.height]; };
  canvas.addEventListener("pointerdown", (event) => { from = at(event); canvas.setPointerCapture(event.pointerId); event.preventDefault(); });
  canvas.addEventListener("pointermove", (event) => {
    if (!from) return;
    const to = at(event);
    paint.strokeStyle = "#000"; paint.lineWidth = 4; paint.lineCap = "round";
    paint.beginPath(); paint.moveTo(...from); paint.lineTo(...to); paint.stroke();
    from = to; signed = true;
  });
  canvas.addEventListener("pointerup", () => { from = null; });
  blank();
  return { canvas, blank, isSigned: () => signed, picture: () => new Promise((done) => { canvas.toBlob(done, "image/png"); }) };
}

function consent(visit) {
  const sign = signature(), told = make("p", { role: "status" });
  const who = make("input", { id: "signer", autocomplete: "off", maxlength: "200" });
  const words = make("textarea", { id: "agreed", rows: "3", maxlength: "2000" });
  words.value = visit.consent ?? "";
  const keep = async () => {
    if (!sign.isSigned() || !who.value.trim() || !words.value.trim()) { told.textContent = "It wants the words, a name and a signature."; return; }
    const blob = await sign.picture(), sha256 = await digestOf(await blob.arrayBuffer());
    await keepHere("pictures", { sha256, blob, name: "consent.png", case: visit.case });
    await jotDown({ case: visit.case, base: visit.base, kind: "consent", key: "consent", says: words.value.trim(), name: who.value.trim(), sha256 });
    visit.consent = words.value.trim();
    await keepHere("visits", visit);
    told.textContent = "Kept, with the signature.";
    sendNow();
  };
  return fold("What the owner agrees to, or refuses, signed", make("label", { for: "agreed" }, "In the owner's words, refusals too"), words,
    make("label", { for: "signer" }, "Name"), who, sign.canvas,
    make("div", { class: "deeds" }, make("button", { type: "button", class: "second", on: { click: () => sign.blank() } }, "Clear"), make("button", { type: "button", on: { click: keep } }, "Keep")), told);
}

function saying(visit) {
  const words = make("textarea", { id: "said", rows: "3", maxlength: "5000" }), told = make("p", { role: "status" });
  const keep = async () => {
    if (!words.value.trim()) return;
    await jotDown({ case: visit.case, base: visit.base, kind: "said", about: "car", says: words.value.trim() });
    words.value = "";
    told.textContent = "Kept.";
    sendNow();
  };
  return fold("What the owner said", make("label", { for: "said" }, "In their words"), words, make("div", { class: "deeds" }, make("button", { type: "button", on: { click: keep } }, "Keep")), told);
}

// A note or picture that was made for another car: it goes there under an id of its own.
async function moveTo(jotting, to) {
  const { revision, problems, order, ...own } = jotting;
  await keepHere("jottings", { ...jotting, problems: undefined, revision: -1 });
  await jotDown({ ...own, id: newId(), case: to, base: (await heldHere("visits", to))?.base ?? 1, moved_from: jotting.case });
  sendNow();
}

async function refused(visit, show) {
  const all = await allHere("jottings"), pictures = (await allHere("pictures")).filter((each) => each.refused && each.case === visit.case);
  const others = reach.cases.map((each) => each.id).filter((each) => each !== visit.case);
  const lines = all.filter((each) => each.case === visit.case && each.problems).map((each) => make("li", {}, `${each.kind}: ${each.problems.join(" ")} `,
    others.map((to) => make("button", { type: "button", class: "second", on: { click: async () => { await moveTo(each, to); show("end"); } } }, `It is of ${to}`))));
  return [...lines, ...pictures.map((each) => make("li", {}, `picture ${each.name}: ${each.refused}`))];
}

async function handedOver(visit, show, isKept) {
  const lines = await refused(visit, show);
  return [make("h2", {}, reach.unsent ? `Not yet on the laptop: ${reach.unsent}` : lines.length ? "All else is on the laptop" : "All is on the laptop"),
    reach.unsent && !isKept ? make("p", {}, "This browser may throw away what it holds after some days without use: let it reach the laptop soon.") : "",
    lines.length ? make("div", {}, make("p", {}, "Not taken, and kept here:"), make("ul", { class: "refused" }, lines)) : "",
    make("button", { type: "button", on: { click: () => sendNow() } }, "Send now")];
}

export async function endOf(visit, show) {
  const open = visit.places.filter((each) => each.state === OPEN), found = await fetchEnd(visit.case);
  const isKept = await askToKeep();
  const unread = make("section", {}, make("h2", {}, open.length ? `Still open: ${open.length}` : "Every place was looked at"),
    make("div", { class: "walk" }, open.map((each) => make("button", { type: "button", on: { click: () => show("card", each.id) } }, `${each.number}. ${each.name}`))));
  const unfit = make("section", {}, make("h2", {}, "Look again now, before leaving"),
    found ? (found.misfits.length ? found.misfits.map((each) => make("p", { class: "misfit" }, "\u25b2 Does not fit: ", each.says, " ", each.places.map((id) => { const at = visit.places.find((one) => one.id === id); return at ? make("button", { type: "button", class: "second", on: { click: () => show("card", id) } }, `${at.number}. ${at.name}`) : ""; }))) : make("p", {}, "Nothing so far does not fit.")) : make("p", {}, "Only the laptop can say, and it is out of reach."));
  const handed = make("section"), fill = async () => handed.replaceChildren(...await handedOver(visit, show, isKept));
  await fill();
  document.addEventListener("reach", function again() { if (handed.isConnected) fill(); else document.removeEventListener("reach", again); });
  return make("div", { class: "end" }, make("button", { type: "button", class: "plain", on: { click: () => show("walk") } }, "\u2190 The walk"), make("h1", { tabindex: "-1" }, "End of the visit"), unread, unfit, saying(visit), consent(visit), handed);
}
