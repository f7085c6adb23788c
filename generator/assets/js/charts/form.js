/* What every reckoner does: read its fields, say what comes of them, say beside a field what is wrong with it. */
(function () {
  "use strict";
  const { el } = handwheel;
  const { INCH_MM, Refused, parse_number } = handwheel.numbers;

  const PAUSE = 250; // ms after the last key: nobody is told off in the middle of a number

  /** The fields of a form, read by name. A fault names the field that it was read from. */
  class Fields {
    constructor(form) {
      this.form = form;
    }

    text(name) {
      return this.form.elements[name].value.trim();
    }

    label(name) {
      return this.form.elements[name].labels[0].textContent.trim();
    }

    blank(...names) {
      return names.some((name) => !this.text(name));
    }

    /** Runs `read`; what it refuses belongs to the field. */
    of(name, read) {
      try {
        return read();
      } catch (fault) {
        if (fault instanceof Refused) fault.field = fault.field || name;
        throw fault;
      }
    }

    number(name) {
      return this.of(name, () => handwheel.numbers.positive(parse_number(this.text(name), this.label(name)), this.label(name)));
    }

    /** In mm; `unit` is the name of the select that says mm or in. */
    length(name, unit) {
      return this.number(name) * (this.text(unit) === "in" ? INCH_MM : 1);
    }

    thread(name) {
      return this.of(name, () => handwheel.reckon.parse_thread(this.text(name)));
    }
  }

  function faultSlot(field) {
    const id = `${field.id}-fault`;
    const there = document.getElementById(id);
    if (there) return there;
    const made = el("span", { id, class: "hw-fault" });
    field.closest(".hw-field").append(made);
    return made;
  }

  function clear(form) {
    form.querySelectorAll("[aria-invalid]").forEach((field) => {
      field.removeAttribute("aria-invalid");
      field.removeAttribute("aria-describedby");
      faultSlot(field).textContent = "";
    });
  }

  function blame(form, fault) {
    const field = form.elements[fault.field] || form.elements[0];
    const slot = faultSlot(field);
    field.setAttribute("aria-invalid", "true");
    field.setAttribute("aria-describedby", slot.id);
    slot.textContent = fault.message[0].toUpperCase() + fault.message.slice(1);
    return slot.textContent;
  }

  /**
   * Ties a form to its reckoning. `reckon(fields)` gives the nodes to show, or null while too little is
   * filled in; it throws Refused. The page has a form and, for what comes of it, #<id>-out and #<id>-drawing.
   */
  function reckoner(id, reckon, draw = (_) => null) {
    const form = document.getElementById(id);
    if (!form) return;
    const out = document.getElementById(`${id}-out`);
    const drawing = document.getElementById(`${id}-drawing`);
    const fields = new Fields(form);
    const show = (said, picture) => {
      out.replaceChildren(...[said].flat().filter(Boolean));
      if (drawing) drawing.replaceChildren(...[picture].filter(Boolean));
    };
    function update() {
      clear(form);
      try {
        show(reckon(fields), draw(fields));
      } catch (fault) {
        if (!(fault instanceof Refused)) throw fault;
        show(el("p", { class: "hw-sr" }, blame(form, fault)), null);
      }
    }
    let pending = 0;
    form.addEventListener("input", () => {
      clearTimeout(pending);
      pending = setTimeout(update, PAUSE);
    });
    form.addEventListener("change", update);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      update();
    });
    update();
  }

  /** The answer itself, and the lines under it. */
  const answer = (...words) => el("p", { class: "hw-result" }, ...words);
  const line = (...words) => el("p", {}, ...words);
  const lines = (items) => items.length ? el("ul", {}, items.map((item) => el("li", {}, item))) : null;

  handwheel.reckoner = reckoner;
  handwheel.said = { answer, line, lines };
})();
