// The slider below a curve: it moves the number field beside it, which asks for itself.
"use strict";
(() => {
  const value = (slide) => {
    const { low, high } = slide.dataset, share = slide.value / slide.max;
    return Number(low * (high / low) ** share);
  };
  const place = (slide, given) => {
    const { low, high } = slide.dataset;
    slide.value = Math.round((Math.log(given / low) / Math.log(high / low)) * slide.max);
  };
  const field = (slide) => slide.form.elements.value;
  const tell = (slide) => slide.setAttribute("aria-valuetext", `${field(slide).value} ${slide.dataset.unit}`);

  function show(root) {
    for (const slide of root.querySelectorAll(".slide input[type=range][hidden]")) {
      slide.hidden = false;
      place(slide, field(slide).value);
      tell(slide);
    }
  }

  document.addEventListener("input", (event) => {
    const slide = event.target.closest(".slide input");
    if (slide?.type === "range") {
      field(slide).value = Number(value(slide).toPrecision(3));
      tell(slide);
    } else if (slide?.name === "value") {
      const range = slide.form.querySelector("input[type=range]");
      if (range && Number(slide.value) > 0) { place(range, Number(slide.value)); tell(range); }
    }
  });
  document.addEventListener("DOMContentLoaded", () => show(document));
  document.addEventListener("htmx:oobAfterSwap", () => show(document));
})();
