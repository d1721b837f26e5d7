// The evidence page: next and previous by key, the state that a reading brings with it, photographs
// turned and enlarged on the screen alone, and rectangles drawn round numbers.
"use strict";
(() => {
  const FIELDS = "input, textarea, select, [contenteditable]";
  const go = (rel) => document.querySelector(`.stepper a[rel="${rel}"]`)?.click();

  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey) return;
    const isWriting = event.target.matches?.(FIELDS) && !["radio", "checkbox"].includes(event.target.type);
    const rel = event.altKey ? { PageDown: "next", PageUp: "prev" }[event.key]
      : isWriting ? null : { n: "next", p: "prev" }[event.key];
    if (rel) { event.preventDefault(); go(rel); }
  });

  // A reading says how its place ended: the answers follow, unless somebody is at them.
  function follow(line) {
    const form = document.getElementById(line.dataset.sets);
    if (!form || form.contains(document.activeElement)) return;
    const box = [...form.querySelectorAll('[name="state"]')].find((each) => each.value === line.dataset.value);
    if (!box || box.checked) return;
    box.checked = true;
    form.dispatchEvent(new CustomEvent("kept:instep", { bubbles: true }));
  }
  document.addEventListener("htmx:afterRequest", (event) => {
    if (event.detail.successful) document.querySelectorAll("[data-sets]").forEach(follow);
  });

  function button(words, act) {
    const made = Object.assign(document.createElement("button"), { type: "button", className: "second", textContent: words });
    made.addEventListener("click", act);
    return made;
  }

  function viewer(figure) {
    const frame = figure.querySelector(".photo-frame"), image = figure.querySelector("img");
    let size = 0, turned = 0;
    const show = () => {
      frame.className = `${frame.classList.contains("tall") ? "photo-frame tall" : "photo-frame"} size-${size} turned-${turned}`;
    };
    const tools = document.createElement("div");
    tools.className = "deeds tools";
    const contrast = button("More contrast", () => {
      const is = image.classList.toggle("contrast");
      contrast.setAttribute("aria-pressed", String(is));
    });
    tools.append(
      button("Larger", () => { size = Math.min(4, size + 1); show(); }),
      button("Smaller", () => { size = Math.max(0, size - 1); show(); }),
      button("Turn", () => { turned = (turned + 1) % 4; show(); }),
      contrast,
    );
    frame.after(tools);
  }

  // Rectangles in pixels of the upright original, drawn on the picture as it is shown.
  function regions(sheet) {
    const form = document.getElementById(sheet.dataset.regions);
    const across = Number(sheet.dataset.across), down = Number(sheet.dataset.down);
    if (!form || !across || !down) return;
    const image = sheet.querySelector("img");
    const SVG = "http://www.w3.org/2000/svg";
    const over = document.createElementNS(SVG, "svg");
    over.setAttribute("viewBox", `0 0 ${across} ${down}`);
    over.setAttribute("class", "regions");
    sheet.append(over);
    const rows = [...form.querySelectorAll(".region")];
    const sides = (row) => ["left", "top", "width", "height"].map((side) => row.querySelector(`[name$="-${side}"]`));
    const box = (values) => {
      const made = document.createElementNS(SVG, "rect");
      ["x", "y", "width", "height"].forEach((name, at) => made.setAttribute(name, values[at]));
      return made;
    };
    function draw() {
      over.replaceChildren(...rows.map((row) => sides(row).map((each) => Number(each.value)))
        .filter((values) => values[2] > 0 && values[3] > 0).map(box));
    }
    let from = null, now = null;
    const at = (event) => {
      const place = image.getBoundingClientRect();
      const x = (event.clientX - place.left) / place.width * across, y = (event.clientY - place.top) / place.height * down;
      return [Math.max(0, Math.min(across, Math.round(x))), Math.max(0, Math.min(down, Math.round(y)))];
    };
    const between = (a, b) => [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1])];
    const isTurned = () => /turned-[123]/.test(sheet.closest(".photo-frame").className);
    over.addEventListener("pointerdown", (event) => {
      if (isTurned()) return;
      from = at(event);
      over.setPointerCapture(event.pointerId);
      event.preventDefault();
    });
    over.addEventListener("pointermove", (event) => {
      if (!from) return;
      now?.remove();
      now = box(between(from, at(event)));
      over.append(now);
    });
    over.addEventListener("pointerup", (event) => {
      if (!from) return;
      const values = between(from, at(event));
      from = null;
      now?.remove();
      if (values[2] < 5 || values[3] < 5) return;
      const row = rows.find((each) => sides(each).every((side) => !side.value));
      if (!row) return;
      const looked = form.querySelector('[type="checkbox"][name="looked"]');
      if (looked) looked.checked = true;
      sides(row).forEach((side, n) => { side.value = values[n]; });
      draw();
      sides(row)[3].dispatchEvent(new Event("input", { bubbles: true }));
    });
    form.addEventListener("input", draw);
    draw();
  }

  document.addEventListener("DOMContentLoaded", () => {
    document.querySelectorAll("[data-photo]").forEach(viewer);
    document.querySelectorAll("[data-regions]").forEach(regions);
  });
})();
