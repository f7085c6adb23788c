/* The page for a machine that is not in the book: form, symptoms, walk, record. Kept on this device. */
(function () {
  "use strict";
  const { el, device, whenGiven } = handwheel;
  const { viewOf, rivals, familyData, recordOf, form, countTicks, tickUses, sameAs, choices, nothingDiffers, formed } = handwheel.unlisted;

  const KEEP_AS = "not-listed";
  const place = (id) => document.getElementById(id);
  const blank = { from: "", title: "", kind: "domestic", uses: [], features: {}, symptom: "" };

  /** What was kept or sent, without what this book does not know. */
  function known(book, chosen) {
    const there = new Set(book.assemblies.map((a) => a.id));
    const asked = { ...blank, ...formed(chosen) };
    const uses = asked.uses.filter((u, n) => there.has(u.use) && asked.uses.findIndex((o) => o.use === u.use) === n);
    const kind = book.families.some((f) => f.kind === asked.kind) ? asked.kind : blank.kind;
    return { ...asked, kind, uses };
  }

  function fromLink(query) {
    return {
      title: query.get("title") || "",
      kind: query.get("kind") || blank.kind,
      symptom: query.get("symptom") || "",
      uses: query.getAll("use").map((text) => {
        const [use, ...without] = text.split(".");
        return { use, without };
      }),
      features: Object.fromEntries(query.getAll("has").map((f) => [f, true])),
    };
  }

  function linkPairs(chosen) {
    const has = Object.keys(chosen.features).filter((f) => chosen.features[f]);
    return [
      ["title", chosen.title], ["kind", chosen.kind], ["symptom", chosen.symptom],
      ...chosen.uses.map((u) => ["use", [u.use, ...u.without].join(".")]),
      ...has.map((f) => ["has", f]),
    ];
  }

  class NotListed {
    constructor(book, chosen, linked) {
      this.book = book;
      this.chosen = known(book, chosen);
      this.drawForm();
      this.drawRest(linked);
    }

    keep(change) {
      this.chosen = known(this.book, { ...this.chosen, ...change });
      device.write(KEEP_AS, this.chosen);
    }

    /** Takes what changes the machine; the form is drawn again only where the field has not done it. */
    take(change, redraw) {
      this.keep(change);
      if (redraw) this.drawForm();
      this.drawRest();
    }

    /** Takes the machine's name or trade, which change no sum. */
    call(change) {
      this.keep(change);
      if (this.of) this.of.family.title = this.name();
      this.record();
    }

    name() {
      return this.chosen.title || "Not listed";
    }

    start(family) {
      if (!family) return this.take({ ...blank, title: this.chosen.title }, true);
      const { id, kind, uses, features } = family;
      return this.take({ from: id, kind, uses, features: { ...features } }, true);
    }

    /** Ticks a mechanism; those that have the same parts go. */
    use(id, on) {
      const out = new Set(on ? [id, ...rivals(this.book, id)] : [id]);
      const left = this.chosen.uses.filter((u) => !out.has(u.use));
      const gone = this.chosen.uses.filter((u) => out.has(u.use) && u.use !== id).map((u) => this.title(u.use));
      this.take({ uses: on ? [...left, { use: id, without: [] }] : left }, false);
      place("nl-live").textContent = gone.length ? `Taken out, as it has the same parts: ${gone.join(", ")}.` : "";
    }

    title(use) {
      return this.book.assemblies.find((a) => a.id === use).title;
    }

    drawForm() {
      const isOpen = (id) => Boolean(place(id) && place(id).open);
      const on = {
        start: (family) => this.start(family),
        call: (change) => this.call(change),
        use: (id, ticked) => this.use(id, ticked),
        has: (id, ticked) => this.take({ features: { ...this.chosen.features, [id]: ticked } }, false),
      };
      place("nl-form").replaceChildren(...form(this.book, this.chosen, on, isOpen));
    }

    drawRest(linked) {
      tickUses(this.chosen.uses.map((u) => u.use));
      countTicks();
      const view = viewOf(this.book, this.chosen);
      const wrong = view.symptoms.some((s) => s.id === this.chosen.symptom);
      place("nl-symptoms").replaceChildren(...this.symptoms(view));
      this.same(view);
      place("walk").hidden = !wrong;
      if (wrong) this.walk(linked);
      this.record();
    }

    symptoms(view) {
      if (!view.symptoms.length) return [el("p", {}, "Tick what the machine has first.")];
      const press = (id) => {
        this.take({ symptom: id }, false);
        place("walk").querySelector("h2").focus();
        place("walk").scrollIntoView({ block: "start" });
      };
      return choices(JSON.parse(place("nl-symptoms").dataset.groups), view.symptoms, this.chosen.symptom, press);
    }

    /** Says so where a listed machine has the same of everything: its own pages know more. */
    same(view) {
      const asked = view.symptoms.find((s) => s.id === this.chosen.symptom);
      place("nl-same").replaceChildren(...[nothingDiffers(sameAs(this.book, this.chosen), asked)].filter(Boolean));
    }

    /** The walk of the symptom; without a policy, it goes by the score of each step. */
    walk(linked) {
      const { book, chosen } = this;
      try {
        const of = handwheel.caseOf(familyData(book, { ...chosen, title: this.name() }, chosen.symptom), chosen.symptom);
        this.of = of;
        const walk = handwheel.walk.walk(of, `walk.${KEEP_AS}.${chosen.symptom}`, linked, { linkPairs: () => linkPairs(this.chosen) });
        const basis = `${of.hypotheses.length} causes. Every share rests on the author's estimates: no jobs were counted for this machine. The order is a good one, not proved the best.`;
        place("walk").replaceChildren(...this.before(), el("p", { class: "hw-rests" }, basis), walk.node);
      } catch (error) {
        if (!(error instanceof RangeError)) throw error;
        place("walk").replaceChildren(el("p", { class: "hw-caution" }, error.message));
      }
    }

    /** What stands before any check: the symptom's warnings and the starting machine's. */
    before() {
      const { book, chosen } = this;
      const symptom = book.symptoms.find((s) => s.id === chosen.symptom);
      const from = book.families.find((f) => f.id === chosen.from) || { cautions: [] };
      return [
        symptom.stop && el("p", { class: "hw-caution hw-danger" }, el("b", {}, "Stop using this machine until it is seen to."), ` ${symptom.stop_why}`),
        ...handwheel.walkWords.cautionLines(book, [...from.cautions, ...symptom.cautions]),
        symptom.first && el("div", { class: "hw-first" }, el("h2", { tabindex: "-1" }, "Before anything is opened"), el("p", {}, symptom.first)),
      ].filter(Boolean);
    }

    record() {
      const some = this.chosen.uses.length > 0;
      place("nl-keep").hidden = !some;
      if (!some) return;
      const { id, text } = recordOf(this.book, this.chosen);
      const area = el("textarea", { readonly: true, rows: 8, id: "nl-text" }, text);
      const file = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
      if (this.file) URL.revokeObjectURL(this.file);
      this.file = file;
      place("nl-record").replaceChildren(
        el("label", { for: "nl-text" }, `content/families/${id}.yaml`), area,
        el("div", { class: "hw-walk-tools" },
          el("a", { class: "hw-plain", href: file, download: `${id}.yaml` }, "Download"),
          el("button", { type: "button", class: "hw-plain", onclick: () => this.copy(area) }, "Copy"))
      );
    }

    copy(area) {
      area.select();
      if (navigator.clipboard) navigator.clipboard.writeText(area.value).catch(() => document.execCommand("copy"));
      else document.execCommand("copy");
      place("nl-live").textContent = "Copied.";
    }
  }

  whenGiven("mechanisms", (book) => {
    const linked = handwheel.walk.fromHash(location.hash);
    const sent = linked && linked.has("use");
    if (sent) history.replaceState(null, "", location.href.split("#")[0]);
    const page = new NotListed(book, sent ? fromLink(linked) : device.read(KEEP_AS, blank), sent ? linked : null);
    if (sent) device.write(KEEP_AS, page.chosen);
    place("nl-again").addEventListener("click", () => page.take(blank, true));
  });
})();
