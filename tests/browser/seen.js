// What a page is measured by, for test_every_page.py: what is heard of it, how wide it is, how
// large its targets are. Whatever is folded away is opened first.
"use strict";
window.seen = {
  open() {
    document.querySelectorAll("details").forEach((each) => { each.open = true; });
  },

  async grave() {
    this.open();
    const found = await axe.run(document, { resultTypes: ["violations"] });
    return found.violations
      .filter((each) => ["serious", "critical"].includes(each.impact))
      .map((each) => [each.id, ...each.nodes.slice(0, 3).map((node) =>
        `${node.html.slice(0, 160)} ${(node.any[0] ?? node.all[0] ?? node.none[0])?.message ?? ""}`)]);
  },

  wider() {
    this.open();
    const page = document.documentElement, most = page.clientWidth;
    if (page.scrollWidth <= most) return [];
    const scrolls = (each) =>
      each && (getComputedStyle(each).overflowX !== "visible" || scrolls(each.parentElement));
    const wide = [...document.body.querySelectorAll("*")].filter((each) =>
      each.getBoundingClientRect().right > most + 1 && !scrolls(each.parentElement));
    return [`${page.scrollWidth} of ${most}`, ...wide.slice(-2).map((each) => each.outerHTML.slice(0, 160))];
  },

  small() {
    this.open();
    const wanted = "button, input:not([type=hidden]), select, textarea, summary, .button, .stops a," +
      ".way a, .masthead nav a";
    const target = (each) =>
      (each.matches("[type=checkbox], [type=radio]") ? each.closest("label") : null) ?? each;
    const box = (each) => each.getBoundingClientRect();
    return [...new Set([...document.querySelectorAll(wanted)].map(target))]
      .filter((each) => each.checkVisibility({ visibilityProperty: true }) && box(each).width > 1)
      .filter((each) => box(each).height < 43.5)
      .map((each) => `${Math.round(box(each).height)} px: ${each.outerHTML.slice(0, 140)}`)
      .slice(0, 5);
  },
};
