// What is typed is kept: each form that says data-keep sends itself when a field changes, and what
// could not be sent stays in this browser until the workshop has said that it has it.
"use strict";
(() => {
  const PREFIX = "witnessmark:";
  const saved = () => document.getElementById("saved");
  const key = (form) => PREFIX + form.getAttribute("action");

  function tell(state, words) {
    const line = saved();
    if (!line) return;
    line.dataset.state = state;
    line.textContent = words;
  }

  function fields(form) {
    return [...new FormData(form)].filter(([name, value]) =>
      typeof value === "string" && name !== "csrfmiddlewaretoken" && name !== "base");
  }

  function keep(form) {
    try { localStorage.setItem(key(form), JSON.stringify({ at: Date.now(), fields: fields(form) })); }
    catch { tell("unsent", "This browser keeps nothing: do not close the page before it says saved."); }
  }

  function forget(form, sent) {
    const now = localStorage.getItem(key(form));
    if (now && JSON.parse(now).at <= sent) localStorage.removeItem(key(form));
  }

  // A form left behind unsent is filled in again and sent, whenever its page is opened.
  function resume(form) {
    const kept = localStorage.getItem(key(form));
    if (!kept) return;
    for (const field of form.elements) if (field.type === "checkbox" || field.type === "radio") field.checked = false;
    for (const [name, value] of JSON.parse(kept).fields) {
      for (const field of form.querySelectorAll(`[name="${CSS.escape(name)}"]`)) {
        if (field.type === "checkbox" || field.type === "radio") { if (field.value === value) field.checked = true; }
        else if (field.type !== "file") field.value = value;
      }
    }
    tell("unsent", "Typed before and not yet saved: being sent again.");
    form.requestSubmit();
  }

  document.addEventListener("input", (event) => {
    const form = event.target.closest("form[data-keep]");
    if (form) { keep(form); tell("unsent", "Being typed…"); }
  });
  document.addEventListener("htmx:configRequest", (event) => {
    // A form that says which revision it was read from says the one that the page stands at now.
    const form = event.detail.elt.closest("form");
    if (!form || !(form.hasAttribute("data-keep") || form.elements.base)) return;
    event.detail.parameters.base = saved()?.dataset.base ?? event.detail.parameters.base;
    form.dataset.sent = String(Date.now());
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    const form = event.detail.elt.closest("form[data-keep]");
    if (!form) return;
    const status = event.detail.xhr?.status ?? 0;
    if (status >= 200 && status < 300) forget(form, Number(form.dataset.sent));
    else if (status === 422) tell("refused", "Not saved: see what is marked.");
    else if (status === 401) tell("unsent", "Kept in this browser: sign in again, then it is sent.");
    else retry(form);
  });

  function retry(form) {
    tell("unsent", "The workshop does not answer. What you typed is kept here and sent again.");
    setTimeout(() => { if (localStorage.getItem(key(form))) form.requestSubmit(); }, 3000);
  }

  window.addEventListener("beforeunload", (event) => {
    if (saved()?.dataset.state === "unsent") event.preventDefault();
  });
  document.addEventListener("DOMContentLoaded", () => {
    document.querySelectorAll("form[data-keep]").forEach(resume);
  });
})();
