// Photographs of a place: taken, judged in words, its number's region drawn by finger, then kept.
import { digestOf } from "./sha256.js";
import { allHere, jotDown, keepHere } from "./outbox.js";
import { judged } from "./judge.js";
import { askPicture } from "./camera.js";
import { make } from "./parts.js";
import { sendNow } from "./sync.js";

const LONGEST = 1600;

async function reduced(blob) {
  const whole = await createImageBitmap(blob, { imageOrientation: "from-image" });
  const scale = Math.min(1, LONGEST / Math.max(whole.width, whole.height));
  const canvas = make("canvas", { class: "shot" });
  canvas.width = Math.round(whole.width * scale);
  canvas.height = Math.round(whole.height * scale);
  canvas.getContext("2d", { willReadFrequently: true }).drawImage(whole, 0, 0, canvas.width, canvas.height);
  return { canvas, scale };
}

// A rectangle by one finger, in pixels of the reduced picture; again replaces it.
function drawnOn(canvas, changed) {
  const paint = canvas.getContext("2d"), clean = paint.getImageData(0, 0, canvas.width, canvas.height);
  let from = null, region = null;
  const at = (event) => {
    const box = canvas.getBoundingClientRect();
    return { x: (event.clientX - box.left) * canvas.width / box.width, y: (event.clientY - box.top) * canvas.height / box.height };
  };
  canvas.addEventListener("pointerdown", (event) => { from = at(event); canvas.setPointerCapture(event.pointerId); event.preventDefault(); });
  canvas.addEventListener("pointermove", (event) => {
    if (!from) return;
    const to = at(event);
    region = { left: Math.round(Math.max(0, Math.min(from.x, to.x))), top: Math.round(Math.max(0, Math.min(from.y, to.y))), width: Math.max(1, Math.round(Math.abs(to.x - from.x))), height: Math.max(1, Math.round(Math.abs(to.y - from.y))) };
    paint.putImageData(clean, 0, 0);
    paint.lineWidth = Math.max(3, canvas.width / 150);
    paint.strokeStyle = "#fff"; paint.strokeRect(region.left, region.top, region.width, region.height);
    paint.setLineDash([12, 12]); paint.strokeStyle = "#000"; paint.strokeRect(region.left, region.top, region.width, region.height); paint.setLineDash([]);
  });
  canvas.addEventListener("pointerup", () => { from = null; if (region) changed(region); });
  return { clean, region: () => region };
}

const inOriginal = (region, scale) => Object.fromEntries(Object.entries(region).map(([side, each]) => [side, side === "width" || side === "height" ? Math.max(1, Math.round(each / scale)) : Math.round(each / scale)]));

async function lookedAt(blob, visit, place, done) {
  const { canvas, scale } = await reduced(blob);
  const told = make("ul", { class: "judged", role: "status" });
  const own = drawnOn(canvas, judge);
  async function judge() {
    const found = await judged({ width: canvas.width, height: canvas.height, rgba: own.clean.data }, own.region());
    told.replaceChildren(...(found.told.length ? found.told.map((each) => make("li", {}, make("b", {}, `${each.what}: `), each.do)) : [make("li", {}, "Sharp and well lit.")]));
  }
  const caption = make("input", { id: "caption", maxlength: "500", autocomplete: "off" });
  const shows = make("select", { id: "shows-mark" }, make("option", { value: "" }, "the place"), place.marks.map((each) => make("option", { value: each.id }, each.name)));
  async function keep() {
    const sha256 = await digestOf(await blob.arrayBuffer());
    await keepHere("pictures", { sha256, blob, name: blob.name || "photo.jpg", case: visit.case });
    const region = own.region();
    const fields = { kind: "picture", sha256, name: blob.name || "photo.jpg", caption: caption.value.trim(), place: place.id };
    if (shows.value) fields.mark = shows.value;
    if (region) fields.number_regions = [inOriginal(region, scale)];
    await jotDown({ case: visit.case, base: visit.base, ...fields });
    place.photographs += 1;
    await keepHere("visits", visit);
    done();
    sendNow();
  }
  const kept = make("button", { type: "button", on: { click: () => { kept.disabled = true; keep().catch((fault) => { kept.disabled = false; told.replaceChildren(make("li", {}, fault?.name === "QuotaExceededError" ? "This phone has no room left: let what is unsent go to the laptop first. The picture is not kept." : "It could not be kept: take it again.")); }); } } }, "Keep it");
  const frame = make("div", { class: "judging" }, canvas, make("p", { class: "quiet" }, "Draw round the number with a finger: it is hidden in whatever is shared."), told,
    make("label", { for: "shows-mark" }, "It shows"), shows, make("label", { for: "caption" }, "What it shows, and why it is kept if it is poor"), caption,
    make("div", { class: "deeds" }, make("button", { type: "button", class: "second", on: { click: () => done() } }, "Take it again"), kept));
  await judge();
  return frame;
}

export function pictures(visit, place) {
  const looked = make("div"), count = make("p", { class: "quiet" });
  const tell = async () => { const left = (await allHere("pictures")).filter((each) => each.case === visit.case && !each.acknowledged).length; count.textContent = `${place.photographs} here${left ? `; ${left} of this car not yet on the laptop` : ""}`; };
  document.addEventListener("reach", tell);
  tell();
  async function take() {
    for (const blob of await askPicture()) await new Promise((next) => { lookedAt(blob, visit, place, () => { looked.replaceChildren(); tell(); next(); }).then((frame) => looked.replaceChildren(frame), () => { looked.replaceChildren(make("p", { class: "misfit" }, "That is no picture this phone can show.")); next(); }); });
  }
  return make("section", { class: "shots" }, make("h2", {}, "Photographs"), count, make("button", { type: "button", class: "camera", on: { click: take } }, "Take photographs"), looked);
}
