// Small parts of every screen: elements made of words, never of markup that somebody typed.
export function make(tag, given = {}, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (name === "on") for (const [event, act] of Object.entries(value)) made.addEventListener(event, act);
    else if (name in made && typeof value !== "string") made[name] = value;
    else if (value !== undefined && value !== false) made.setAttribute(name, value === true ? "" : value);
  }
  made.append(...inside.flat().filter((each) => each !== "" && each !== null && each !== undefined && each !== false));
  return made;
}

// Drawings and sketches come from the laptop itself, in its own visit.
export function drawing(svg) {
  const frame = make("div", { class: "drawing" });
  frame.innerHTML = svg;
  return frame;
}

export const fold = (title, ...inside) => make("details", {}, make("summary", {}, title), ...inside);

export function choices(name, answers, chosen, act, big = false) {
  return make("div", { class: big ? "answers" : "choices", role: "radiogroup", "aria-label": name },
    answers.map(({ value, word, says, sketch }) => make("button", {
      type: "button", role: "radio", "aria-checked": String(value === chosen), "data-value": value,
      on: { click: (event) => {
        for (const each of event.currentTarget.parentElement.children) each.setAttribute("aria-checked", String(each === event.currentTarget));
        act(value);
      } },
    }, sketch ? drawing(sketch) : "", make("b", {}, word), says ? make("span", {}, says) : "")));
}

// A reading large, character by character, so that each can be compared with the metal.
export function large(text) {
  const line = make("output", { class: "large", "aria-label": `It says ${[...text].join(" ")}` });
  line.append(...[...text].map((sign) => make("span", { class: "?…[]".includes(sign) ? "unsure" : "" }, sign === " " ? "\u00a0" : sign)));
  return line;
}
