// What is typed is kept: each form that says data-keep sends itself when a field changes, and what
// could not be sent stays in this browser until the workshop has said that it has it. An entry of
// the outbox is one form in one window: its fields, what they held when last in step (`was`), and
// the revision that they were read from, so that the store can put two people's changes together.
"use strict";
(() => {
  const PREFIX = "witnessmark:", AGAIN = 3000, LONGEST = 30000, LEFT_BEHIND = 15000;
  const windowId = (() => {
    try {
      const own = sessionStorage.getItem("window") || Math.random().toString(36).slice(2);
      sessionStorage.setItem("window", own);
      return own;
    } catch { return "one"; }
  })();
  const saved = () => document.getElementById("saved");
  const key = (form) => `${PREFIX}${windowId} ${form.getAttribute("action")}`;
  const isKept = (form) => form instanceof HTMLFormElement && form.matches("form[data-keep]");
  const keeping = () => [...document.querySelectorAll("form[data-keep]")];
  const steps = new WeakMap(), waits = new WeakMap(), refusals = new WeakMap();

  function tell(state, words, ...more) {
    const line = saved();
    if (!line) return;
    line.dataset.state = state;
    line.replaceChildren(words, ...more);
  }
  const link = (href, words) => Object.assign(document.createElement("a"), { href, textContent: words });

  // What is wrong in an answer: the field that it stands at, and the reason.
  function wrongIn(html) {
    const answer = new DOMParser().parseFromString(html, "text/html");
    return [...answer.querySelectorAll(".problem")].map((each) => ({
      name: each.dataset.field ?? "",
      reason: (each.querySelector("p") ?? each).textContent.replace("\u25b2", "").trim(),
    }));
  }

  // What a field is called on its page.
  function called(field) {
    const group = ["radio", "checkbox"].includes(field.type) ? field.closest("[role=group], fieldset") : null;
    const label = group?.querySelector("legend") ?? field.labels?.[0];
    const words = [...(label?.childNodes ?? [])].find((each) => each.nodeType === Node.TEXT_NODE && each.textContent.trim());
    return (group?.getAttribute("aria-label") ?? field.getAttribute("aria-label") ?? words?.textContent ?? field.name).trim();
  }
  const fieldsOf = (form) => [...form.elements].filter((each) => each.name && each.type !== "hidden");

  // A fault is marked at its field; whatever holds it is opened, and the line that stays in sight leads there.
  function mark(form, wrong) {
    const names = new Set(wrong.map((each) => each.name));
    for (const field of fieldsOf(form)) {
      if (names.has(field.name)) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
    const field = fieldsOf(form).find((each) => names.has(each.name));
    for (let each = field?.closest("details"); each; each = each.parentElement?.closest("details")) each.open = true;
    form.dataset.refused = "yes";
    refusals.set(form, { field, wrong });
    if (field?.id && location.hash === `#${field.id}`) field.focus();
    settle();
  }

  function tellRefused({ field, wrong }) {
    const first = wrong.find((each) => each.name && each.name === field?.name) ?? wrong[0];
    const where = field ? link(`#${field.id || "main"}`, called(field)) : link("#problems", "What is wrong");
    where.addEventListener("click", (event) => { if (field) { event.preventDefault(); field.scrollIntoView({ block: "center" }); field.focus(); } });
    tell("refused", "Not saved: ", where, `: ${first?.reason ?? "it was not taken."}`);
  }

  // What the line says, from what waits in this browser: here, or typed on another page of this window.
  function settle() {
    const open = keeping().filter((each) => read(key(each))), here = new Set(keeping().map(key));
    const refused = keeping().find((each) => each.dataset.refused);
    const away = names().some((each) => each.startsWith(`${PREFIX}${windowId} `) && !here.has(each) && read(each));
    if (refused) tellRefused(refusals.get(refused) ?? { wrong: [] });
    else if (open.length) tell("unsent", "Being typed…");
    else if (away) tell("unsent", "Something typed on another page is not saved yet.");
    else if (saved() && saved().dataset.state !== "saved") tell("saved", `Revision ${saved().dataset.base}, saved`);
  }

  function fields(form) {
    return [...new FormData(form)].filter(([name, value]) =>
      typeof value === "string" && !["csrfmiddlewaretoken", "base", "was"].includes(name));
  }

  // Whoever signs in after somebody else sends nothing that the other typed.
  const who = () => document.querySelector(".masthead .who span")?.textContent ?? "";
  const read = (name) => {
    try {
      const entry = JSON.parse(localStorage.getItem(name));
      return entry?.who === who() ? entry : null;
    } catch { return null; }
  };
  const names = () => { try { return Object.keys(localStorage).filter((each) => each.startsWith(PREFIX)); } catch { return []; } };
  const drop = (name) => { try { localStorage.removeItem(name); } catch { /* it was never kept */ } };
  const baseOf = (form) => saved()?.dataset.base ?? form.elements.base?.value ?? "";

  // Checked boxes and radio buttons that are off say nothing: what was on before and is off now is empty.
  const held = (pairs) => Object.fromEntries(pairs);
  const inStep = (form) => {
    if (!steps.has(form)) steps.set(form, { was: held(fields(form)), base: baseOf(form) });
    return steps.get(form);
  };

  function keep(form) {
    const { was } = inStep(form);
    const entry = { at: Date.now(), who: who(), base: baseOf(form), was, fields: fields(form), page: location.href.split("#")[0] };
    entry.title = document.title;
    entry.called = Object.fromEntries(fieldsOf(form).map((each) => [each.name, { words: called(each), id: each.id }]));
    try { localStorage.setItem(key(form), JSON.stringify(entry)); }
    catch { tell("unsent", "This browser keeps nothing: do not close the page before it says saved."); }
  }

  // Fill a form with what was typed into it and never acknowledged.
  function fill(form, pairs) {
    for (const field of form.elements) if (field.type === "checkbox" || field.type === "radio") field.checked = false;
    for (const [name, value] of pairs) {
      for (const field of form.querySelectorAll(`[name="${CSS.escape(name)}"]`)) {
        if (field.type === "checkbox" || field.type === "radio") { if (field.value === value) field.checked = true; }
        else if (field.type !== "file" && field.type !== "hidden") field.value = value;
      }
    }
  }

  const submit = (form) => form.dispatchEvent(new Event("change", { bubbles: true }));

  function resume(form) {
    inStep(form);
    const entry = read(key(form));
    if (!entry) return;
    fill(form, entry.fields);
    steps.set(form, { was: entry.was ?? {}, base: entry.base });
    tell("unsent", "Typed before and not yet saved: being sent again.");
    submit(form);
  }

  // What another window of this browser left behind is offered, never put over what stands here.
  function offer(form) {
    for (const name of names()) {
      const entry = read(name);
      const isOther = !name.startsWith(`${PREFIX}${windowId} `) && name.endsWith(` ${form.getAttribute("action")}`);
      if (!isOther || !entry || Date.now() - entry.at < LEFT_BEHIND) continue;
      const same = JSON.stringify(entry.fields) === JSON.stringify(fields(form));
      if (same) { drop(name); continue; }
      const line = document.createElement("p");
      const typed = new Set([...form.elements].filter((each) => ["text", "textarea"].includes(each.type)).map((each) => each.name));
      const now = held(fields(form));
      const text = entry.fields.filter(([name, value]) => typed.has(name) && value && value !== now[name])
        .map(([, value]) => value).join(", ") || "another choice";
      const take = Object.assign(document.createElement("button"), { type: "button", className: "second", textContent: "Put it here" });
      const leave = Object.assign(document.createElement("button"), { type: "button", className: "plain", textContent: "Throw it away" });
      line.className = "left-behind";
      line.append(`Typed in another window and never saved: ${text} `, take, " ", leave);
      take.addEventListener("click", () => { fill(form, entry.fields); drop(name); line.remove(); keep(form); submit(form); });
      leave.addEventListener("click", () => { drop(name); line.remove(); });
      form.prepend(line);
    }
  }

  // Entries of this window whose page is not open are sent as they are.
  async function sendLeft() {
    const here = new Set(keeping().map(key));
    for (const name of names()) {
      if (!name.startsWith(`${PREFIX}${windowId} `) || here.has(name)) continue;
      const entry = read(name);
      if (!entry) continue;
      const answer = await send(name.slice(`${PREFIX}${windowId} `.length), entry).catch(() => null);
      if (answer?.ok && !answer.redirected) drop(name);
      else if (answer?.status === 422) left(entry, wrongIn(await answer.text())[0]);
      else left(entry, null);
    }
    settle();
  }

  // Which page, which field, and why.
  function left(entry, wrong) {
    const line = document.createElement("p"), field = entry.called?.[wrong?.name];
    const where = [entry.title || "another page", ...(field ? [field.words] : [])].join(", ");
    const why = wrong ? `was not taken: ${wrong.reason}` : "is not sent yet.";
    line.className = "left-behind";
    line.append(`Typed before (${where}): it ${why} `, link(`${entry.page}#${field?.id || "main"}`, "Go back to it"));
    document.getElementById("main")?.prepend(line);
  }

  function send(action, entry) {
    const body = new URLSearchParams(entry.fields);
    body.set("base", entry.base);
    body.set("was", JSON.stringify(entry.was ?? {}));
    const token = JSON.parse(document.body.getAttribute("hx-headers") || "{}");
    return fetch(action, { method: "POST", body, keepalive: true, redirect: "manual", headers: { ...token, "HX-Request": "true" } });
  }

  document.addEventListener("input", (event) => {
    const form = event.target.closest("form[data-keep]");
    if (form && event.target.name) { delete form.dataset.refused; keep(form); tell("unsent", "Being typed…"); }
  });
  // What the workshop itself has set is no change of anybody's.
  document.addEventListener("kept:instep", (event) => {
    if (isKept(event.target) && !read(key(event.target))) { steps.delete(event.target); inStep(event.target); }
  });
  // Before a key is answered the form is as it was read.
  for (const kind of ["focusin", "pointerdown"]) document.addEventListener(kind, (event) => {
    const form = event.target.closest?.("form[data-keep]");
    if (form) inStep(form);
  }, true);

  document.addEventListener("htmx:configRequest", (event) => {
    const form = event.detail.elt;
    if (!isKept(form)) {
      // One that keeps nothing and says which revision it was read from says that of the page.
      const plain = form.closest?.("form");
      if (plain?.elements.base) event.detail.parameters.base = saved()?.dataset.base ?? event.detail.parameters.base;
      return;
    }
    const step = inStep(form), entry = read(key(form));
    event.detail.parameters.base = entry?.base ?? baseOf(form);
    event.detail.parameters.was = JSON.stringify(step.was);
    form.dataset.sent = String(Date.now());
    steps.set(form, { ...step, sent: held(fields(form)) });
  });
  document.addEventListener("htmx:afterRequest", (event) => {
    const form = event.detail.elt;
    if (!isKept(form)) return;
    const status = event.detail.xhr?.status ?? 0;
    if (status >= 200 && status < 300) acknowledged(form);
    else if (status === 422) mark(form, wrongIn(event.detail.xhr.responseText));
    else if (status === 401) tell("unsent", "Kept in this browser: sign in again, then it is sent.");
    else if (status === 403 || status === 404) tell("refused", "Not saved, and kept in this browser: this page cannot be changed from here any more.");
    else retry(form);
  });

  function acknowledged(form) {
    const step = inStep(form), entry = read(key(form));
    steps.set(form, { was: step.sent ?? step.was, base: baseOf(form) });
    waits.delete(form);
    if (entry && entry.at <= Number(form.dataset.sent)) drop(key(form));
    else if (entry) keep(form);
    delete form.dataset.refused;
    for (const field of fieldsOf(form)) field.removeAttribute("aria-invalid");
    settle();
  }

  function retry(form) {
    tell("unsent", "The workshop does not answer. What you typed is kept here and sent again.");
    const before = waits.get(form), wait = Math.min(LONGEST, (before?.wait ?? AGAIN / 2) * 2);
    clearTimeout(before?.timer);
    waits.set(form, { wait, timer: setTimeout(() => { if (read(key(form))) submit(form); }, wait) });
  }
  window.addEventListener("online", () => keeping().forEach((form) => { if (read(key(form))) submit(form); }));

  // Whoever leaves the page in the middle of a word: it is sent on the way, and kept until acknowledged.
  window.addEventListener("pagehide", () => {
    for (const form of keeping()) {
      const entry = read(key(form));
      if (entry) send(form.getAttribute("action"), entry).catch(() => null);
    }
  });
  window.addEventListener("beforeunload", (event) => {
    try { localStorage.setItem(`${PREFIX}?`, "1"); drop(`${PREFIX}?`); }
    catch { if (saved()?.dataset.state === "unsent") event.preventDefault(); }
  });
  document.addEventListener("DOMContentLoaded", () => {
    keeping().forEach((form) => { offer(form); resume(form); });
    if (!keeping().some((form) => read(key(form)))) settle();
    setTimeout(sendLeft, 1500);
  });
})();
