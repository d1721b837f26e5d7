// What was said, word by word, as a reading in notation: figures, letters by their names and by the
// international spelling alphabet, doubts behind the characters. A word that is none of these is told,
// and then nothing is taken: no number is ever completed or put right.
const FIGURES = { zero: "0", nought: "0", naught: "0", one: "1", two: "2", three: "3", four: "4", five: "5", six: "6", seven: "7", eight: "8", nine: "9", niner: "9" };
const SPELT = ["alfa alpha", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel", "india", "juliett juliet", "kilo", "lima", "mike", "november", "oscar", "papa", "quebec", "romeo", "sierra", "tango", "uniform", "victor", "whiskey whisky", "x-ray xray", "yankee", "zulu"];
const NAMED = { ay: "A", bee: "B", cee: "C", dee: "D", ee: "E", ef: "F", eff: "F", gee: "G", aitch: "H", jay: "J", kay: "K", el: "L", ell: "L", em: "M", en: "N", pee: "P", cue: "Q", queue: "Q", ar: "R", ess: "S", tee: "T", vee: "V", ex: "X", wye: "Y", zed: "Z", zee: "Z" };
const SEPARATED = { dash: "-", hyphen: "-", space: " ", slash: "/", dot: ".", point: ".", star: "*" };
const LOST = { illegible: "?", worn: "?", unreadable: "?", ground: "~", filled: "~", blank: "_", gap: "\u2026" };
const ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth"];
const TIMES = { double: 2, triple: 3, treble: 3 };
const DOUBTED = new Set(["unsure", "uncertain", "doubtful", "unclear"]);
const BESIDE = new Set(["and", "is", "are", "the", "then", "character", "characters", "place", "places", "a", "window", "struck", "over", "never"]);

const SIGNS = new Map([...Object.entries(FIGURES), ...Object.entries(NAMED),
  ...SPELT.flatMap((words, n) => words.split(" ").map((word) => [word, String.fromCharCode(65 + n)]))]);

// `oh` is the letter or the figure, whichever such a mark can have; with both it is what was said.
function signOf(word, signs) {
  if (word === "oh" || word === "o") return signs.includes("0") && !signs.includes("O") ? "0" : "O";
  if (SIGNS.has(word)) return SIGNS.get(word);
  return /^[a-z0-9]$/.test(word) ? word.toUpperCase() : "";
}

// The places of a reading; `isSeparator` is what stands between them and is not counted.
function placesOf(words, signs, unknown) {
  const places = [];
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at], next = words[at + 1] ?? "";
    if (word === "either") {
      const one = signOf(next, signs), other = words[at + 2] === "or" ? signOf(words[at + 3] ?? "", signs) : "";
      if (one && other) places.push({ text: `[${one}${other}]` });
      else unknown.push(words.slice(at, at + 4).join(" "));
      at += 3;
    } else if (TIMES[word]) {
      const sign = signOf(next, signs);
      if (sign) for (let n = 0; n < TIMES[word]; n += 1) places.push({ text: sign });
      else unknown.push(`${word} ${next}`.trim());
      at += 1;
    } else if (word === "next" && next === "window") { places.push({ text: " | ", isSeparator: true }); at += 1; }
    else if (word === "struck" && next === "over") { places.push({ text: "~" }); at += 1; }
    else if (word === "never" && next === "struck") { places.push({ text: "_" }); at += 1; }
    else if (LOST[word]) places.push({ text: LOST[word] });
    else if (SEPARATED[word]) places.push({ text: SEPARATED[word], isSeparator: true });
    else if (signOf(word, signs)) places.push({ text: signOf(word, signs) });
    else if (/^[a-z0-9]{2,}$/.test(word) && /\d/.test(word)) for (const each of word) places.push({ text: each.toUpperCase() });
    else unknown.push(word);
  }
  return places;
}

// Which places a doubt names: an ordinal, several, or the one that was said last.
function doubted(words, places, unknown) {
  const counted = places.filter((each) => !each.isSeparator);
  const named = words.filter((word) => !DOUBTED.has(word) && !BESIDE.has(word));
  if (!named.length) { if (counted.length) counted.at(-1).isDoubted = true; return; }
  for (const word of named) {
    const at = word === "last" ? counted.length - 1 : ORDINALS.indexOf(word);
    if (at < 0 || !counted[at]) unknown.push(`${word} unsure`);
    else counted[at].isDoubted = true;
  }
}

// A doubt leaves what was heard aside: the place was not surely read, so it is worn away.
export function heard(text, signs) {
  const unknown = [], places = [];
  for (const part of text.toLowerCase().split(/[,;.\n]+|\bbut\b/)) {
    const words = part.trim().split(/\s+/).filter(Boolean);
    const isDoubt = words.some((word) => DOUBTED.has(word));
    if (!isDoubt) { places.push(...placesOf(words.filter((word) => word !== "then"), signs, unknown)); continue; }
    const begin = words.findIndex((word) => DOUBTED.has(word) || ORDINALS.includes(word) || word === "last" || word === "the");
    places.push(...placesOf(words.slice(0, begin), signs, unknown));
    doubted(words.slice(begin), places, unknown);
  }
  return { text: places.map((each) => (each.isDoubted && each.text.length === 1 ? "?" : each.text)).join("").trim(), places: places.map((each) => each.text), unknown };
}
