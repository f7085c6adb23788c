/* What the machine has, asked mechanism by mechanism. */
(function () {
  "use strict";
  const { el } = handwheel;

  function option(value, words, chosen) {
    return el("option", { value, selected: value === chosen }, words);
  }

  /** One line to tick: the name in bold, how to know it under it. */
  function tick(name, value, words, small, on, change) {
    const box = el("input", { type: "checkbox", name, value, checked: on, onchange: (event) => change(value, event.target.checked) });
    return el("label", { class: "hw-tick" }, box, el("span", {}, el("b", {}, words), small && el("small", {}, small)));
  }

  function nearest(book, chosen, take) {
    const hint = el("p", { class: "hw-rests" });
    const tell = (id) => (hint.textContent = (book.families.find((f) => f.id === id) || { recognise: "" }).recognise);
    const pick = el(
      "select",
      { id: "nl-from", onchange: () => take(book.families.find((f) => f.id === pick.value)) },
      option("", "Choose the nearest", chosen.from),
      ...book.families.map((f) => option(f.id, f.title, chosen.from))
    );
    tell(chosen.from);
    return el("div", { class: "hw-field" }, el("label", { for: "nl-from" }, "Start from the machine that is most like it"), pick, hint);
  }

  function name(book, chosen, call) {
    const title = el("input", { id: "nl-title", value: chosen.title, autocomplete: "off", maxlength: 120, oninput: () => call({ title: title.value }) });
    const kinds = [...new Set(book.families.map((f) => f.kind))].sort();
    const kind = el("select", { id: "nl-kind", onchange: () => call({ kind: kind.value }) }, ...kinds.map((k) => option(k, k, chosen.kind)));
    return el(
      "div",
      { class: "hw-field" },
      el("label", { for: "nl-title" }, "What you call it"), title,
      el("label", { for: "nl-kind" }, "Its trade"), kind
    );
  }

  function mechanisms(book, chosen, change) {
    const used = new Set(chosen.uses.map((u) => u.use));
    const roles = [...new Set(book.assemblies.map((a) => a.role))];
    const group = (role) =>
      el(
        "fieldset",
        {},
        el("legend", {}, role.replace(/-/g, " ")),
        ...book.assemblies
          .filter((a) => a.role === role)
          .map((a) => tick("use", a.id, a.title, a.recognise, used.has(a.id), change))
      );
    return roles.map(group);
  }

  function features(book, chosen, change) {
    return book.features.map((f) => tick("has", f.id, f.ask || f.title, "", Boolean(chosen.features[f.id]), change));
  }

  /** A part of the form that opens; it stays as the reader left it when the form is drawn again. */
  function fold(id, words, open, ...inside) {
    return el("details", { id, open }, el("summary", {}, `${words} `, el("small", {})), ...inside);
  }

  /** The whole form. `on` is {start, call, use, has}, each told what was picked. */
  function form(book, chosen, on, isOpen) {
    return [
      nearest(book, chosen, on.start),
      name(book, chosen, on.call),
      fold("nl-mechanisms", "Mechanisms", isOpen("nl-mechanisms"), ...mechanisms(book, chosen, on.use)),
      fold("nl-features", "What it has and does", isOpen("nl-features"), ...features(book, chosen, on.has)),
    ];
  }

  /** Ticks the mechanisms that the machine has: one that comes in may have put others out. */
  function tickUses(uses) {
    const used = new Set(uses);
    document.querySelectorAll('#nl-form [name="use"]').forEach((box) => (box.checked = used.has(box.value)));
  }

  /** Says in each part's heading how much of it is ticked. */
  function countTicks() {
    document.querySelectorAll("#nl-form details").forEach((part) => {
      part.querySelector("summary small").textContent = `${part.querySelectorAll(":checked").length} ticked`;
    });
  }

  handwheel.unlisted.form = form;
  handwheel.unlisted.countTicks = countTicks;
  handwheel.unlisted.tickUses = tickUses;
})();
