/* The finder in the header of every page, and the chosen machine, which the device remembers.
   What the finder needs is loaded when it is first wanted; on the home page also once the page has come to rest. */
(function () {
  "use strict";

  const { el } = handwheel;
  const SCRIPTS = ["language", "spelling", "match", "pages", "box"].map((name) => `assets/handwheel/js/finder/${name}.js`);

  /** Loads the finder, then calls `use`. */
  function wanted(use) {
    [...SCRIPTS, "assets/handwheel/data/finder.js", "assets/handwheel/data/pages.js"].forEach(handwheel.load);
    handwheel.whenGiven("finder-ready", use);
  }

  function once(act) {
    let done = false;
    return () => {
      if (!done) act();
      done = true;
    };
  }

  /** The machine that this page is about, until another is chosen on it; else the one that the device remembers. */
  let ofPage = (document.querySelector('meta[name="handwheel-family"]') || { content: "" }).content;

  /** A choice of machines that is remembered, and follows every other such choice on the page. */
  function remembering(select) {
    const follow = () => {
      const wanted = ofPage || handwheel.device.read("family", "");
      select.value = [...select.options].some((option) => option.value === wanted) ? wanted : "";
    };
    select.addEventListener("change", () => {
      ofPage = "";
      handwheel.device.write("family", select.value);
      document.dispatchEvent(new Event("handwheel:family"));
    });
    document.addEventListener("handwheel:family", follow);
    follow();
  }

  function onHome() {
    const byId = (id) => document.getElementById(id);
    if (!byId("finder")) return;
    byId("finder").closest("form").addEventListener("submit", (event) => event.preventDefault());
    remembering(byId("finder-family"));
    const box = { input: byId("finder"), family: byId("finder-family"), results: byId("finder-results") };
    const start = once(() => wanted(() => handwheel.finder.attach({ ...box, status: byId("finder-status"), nearest: byId("finder-nearest") })));
    [box.input, box.family].forEach((field) => field.addEventListener("focus", start));
    if (document.activeElement === box.input || box.input.value) start(); // focused, or filled by going back, before this ran
    else if (document.readyState === "complete") handwheel.whenIdle(start);
    else addEventListener("load", () => handwheel.whenIdle(start));
  }

  /** The header's finder, on every page that has none of its own. */
  function inHeader() {
    const bar = document.querySelector(".md-header__inner");
    const id = "finder";
    if (!bar || document.getElementById(id)) return;
    const family = el("select", { id: `${id}-family` }, el("option", { value: "" }, "Any machine"));
    const input = el("input", {
      id, type: "search", role: "combobox", autocomplete: "off", placeholder: "What is wrong with it?",
      "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": `${id}-results`,
    });
    const results = el("div", { id: `${id}-results`, class: "hw-results", role: "listbox", "aria-label": "Symptoms that fit", hidden: true });
    const status = el("p", { role: "status", class: "hw-finder-status" });
    const nearest = el("div", { class: "hw-nearest" });
    const panel = el("div", { class: "hw-seek-panel", id: `${id}-panel` },
      el("form", { role: "search", "aria-label": "Symptoms", onsubmit: (event) => event.preventDefault() },
        el("label", { for: id, class: "hw-sr" }, "The customer’s words"), input,
        el("label", { for: family.id, class: "hw-sr" }, "Machine"), family),
      el("div", { class: "hw-seek-found" }, status, results, nearest));
    const button = el("button", { type: "button", class: "hw-seek-open", "aria-expanded": "false", "aria-controls": panel.id }, "Find");
    const whole = el("div", { class: "hw-seek md-typeset" }, button, panel);
    bar.querySelector(".md-header__title").after(whole);
    handwheel.whenGiven("families", (families) => {
      family.append(...families.map(([value, title]) => el("option", { value }, title)));
      remembering(family);
    });
    opening(whole, button, input);
    const start = () => wanted(() => handwheel.finder.attach({ input, family, results, status, nearest }));
    whole.addEventListener("focusin", start, { once: true });
  }

  /** On a narrow screen a button opens it; a click elsewhere or Escape shuts it. */
  function opening(whole, button, input) {
    const set = (open) => {
      whole.classList.toggle("hw-open", open);
      button.setAttribute("aria-expanded", String(open));
    };
    button.addEventListener("click", () => {
      set(button.getAttribute("aria-expanded") !== "true");
      if (whole.classList.contains("hw-open")) input.focus();
    });
    whole.addEventListener("focusin", (event) => event.target !== button && set(true));
    document.addEventListener("pointerdown", (event) => whole.contains(event.target) || set(false));
    document.addEventListener("focusin", (event) => whole.contains(event.target) || set(false));
    whole.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      set(false);
      button.focus();
    });
  }

  /** "/" goes to the field from anywhere but where text is written. */
  function bySlash() {
    document.addEventListener("keydown", (event) => {
      const writes = event.target.closest("input, textarea, select, [contenteditable]");
      if (event.key !== "/" || writes || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      const open = document.querySelector(".hw-seek-open");
      if (open && open.offsetParent) open.click(); // on a narrow screen the field is behind a word
      else document.getElementById("finder").focus();
    });
  }

  onHome();
  inHeader();
  bySlash();
  handwheel.load("assets/handwheel/data/families.js");
})();
