// A keyboard of the signs that this mark can have and of the signs of doubt, for one thumb: two pages,
// the figures first, the switch always at one place.
import { make } from "./parts.js";

const DOUBTS = [["?", "worn away: cannot be read"], ["~", "ground, filled or struck over"], ["_", "never struck"], ["\u2026", "places lost"]];
const FIGURE = /[0-9]/;

function put(field, text, back = 0) {
  const from = field.selectionStart ?? field.value.length, to = field.selectionEnd ?? from;
  field.setRangeText(text, from, to, "end");
  field.setSelectionRange(from + text.length - back, from + text.length - back);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

function removed(field) {
  const from = field.selectionStart, to = field.selectionEnd;
  if (from === to && from === 0) return;
  field.setRangeText("", from === to ? from - 1 : from, to, "end");
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

function moved(field, step) {
  const at = Math.min(field.value.length, Math.max(0, (field.selectionStart ?? 0) + step));
  field.setSelectionRange(at, at);
}

export function noteKeys(element, field, signs, hasWindows) {
  const letters = [...signs].filter((each) => !FIGURE.test(each) && each.trim()), figures = [..."1234567890"];
  // Pressed without taking the cursor out of its field.
  const key = (words, act, name = "", kind = "") => make("button", { type: "button", class: kind, "aria-label": name || undefined, on: { pointerdown: (event) => event.preventDefault(), click: () => { field.focus({ preventScroll: true }); act(); } } }, words);
  const sign = (each) => key(each, () => put(field, each));
  const first = make("div", { class: "page" }, figures.map(sign));
  const second = make("div", { class: "page" }, (letters.length ? letters : [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"]).map(sign));
  second.hidden = true;
  const other = key("Letters", () => { second.hidden = !second.hidden; first.hidden = !first.hidden; other.textContent = second.hidden ? "Letters" : "Figures"; }, "", "other");
  const doubts = DOUBTS.map(([each, name]) => key(each, () => put(field, each), name, "doubt"));
  const either = key("[ ]", () => put(field, "[]", 1), "one of these: type them between", "doubt");
  const rest = [either, hasWindows ? key("|", () => put(field, " | "), "next window", "doubt") : "", key("\u2190", () => moved(field, -1), "cursor left"), key("\u2192", () => moved(field, 1), "cursor right"), key("Space", () => put(field, " "), "", "word"), key("\u232b", () => removed(field), "delete", "delete")];
  const under = make("div", { class: "page under" }, other, doubts, rest);
  const system = make("button", { type: "button", class: "plain", on: { click: () => { field.inputMode = "text"; field.blur(); field.focus(); } } }, "The phone's own keyboard");
  element.replaceChildren(first, second, under, system);
}
