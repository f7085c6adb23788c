/* The step to do now, in large type: a check, a remedy, or the end. */
(function () {
  "use strict";
  const { el, root, minutes, percent } = handwheel;
  const { checkOf, remedyOf } = handwheel.journey;
  const { listed, causeName, causeLinks, cautionLines, cautionNames, putBack, facts } = handwheel.walkWords;

  const FAR_LESS = 0.1;
  const ALSO = 3; // other causes that are named; the ranking has them all

  const heading = (...words) => el("h3", { class: "hw-walk-title", tabindex: "-1" }, ...words);
  const button = (words, press, attributes) =>
    el("button", { type: "button", class: "hw-choice", onclick: press, ...attributes }, ...words);

  const ofParts = (family, parts) => parts.flatMap((part) => family.parts[part].cautions);

  /** In full what this walk needs for the first time; what it told before, by name. */
  function cautionsOf(of, state, own) {
    const told = new Set([...state.done.flatMap((id) => (checkOf(of, id) || { cautions: [] }).cautions), ...ofParts(of.family, state.open)]);
    const needed = [...own, ...ofParts(of.family, state.step.opens)];
    return [cautionNames(of.family, needed.filter((id) => told.has(id))), ...cautionLines(of.family, needed.filter((id) => !told.has(id)))];
  }

  /** Parts off from before that the step need not have off. */
  function back(of, state, check) {
    const needed = new Set(handwheel.machine.wayIn(of.family, check.reach));
    return putBack(of.family, state.open.filter((part) => !needed.has(part)), check.power);
  }

  /** Record text that our own Markdown converter made: the one place where a string becomes HTML. */
  function converted(html) {
    const block = el("div", { class: "hw-walk-how" });
    block.innerHTML = html;
    return block;
  }

  /** A picture, with its place kept free while it loads. */
  function image({ files, height, alt }) {
    const srcset = files.map(({ file, width }) => `${root()}${file} ${width}w`).join(", ");
    const [{ file, width }] = files;
    return el("img", { src: root() + file, srcset, sizes: "(min-width: 45em) 30rem, 100vw", width, height, alt, decoding: "async" });
  }

  function photos(pictures) {
    return (pictures || []).map((picture) => el("figure", { class: "hw-photo" }, image(picture), el("figcaption", {}, picture.credit)));
  }

  function choices(check, act) {
    return check.says.map((says, index) => {
      const means = check.cured.has(index) ? "Then the job is done." : check.means[index];
      const words = [el("b", {}, says), means && el("span", {}, means), ...((check.looks || [])[index] || []).map(image)];
      return button(words, () => act({ saw: check.id, outcome: index + 1 }), { "data-outcome": index + 1 });
    });
  }

  function checkView(of, state, act) {
    const check = checkOf(of, state.step.id);
    return el(
      "article",
      { class: "hw-walk-step", "data-check": check.id },
      heading(check.title),
      ...cautionsOf(of, state, check.cautions),
      back(of, state, check),
      facts(of.family, state.step, check.power),
      converted(check.how),
      ...photos(check.pictures),
      check.expect && el("p", { class: "hw-expect" }, el("b", {}, "A good one:"), ` ${check.expect}`),
      el("h4", { class: "hw-walk-ask" }, "What do you see?"),
      el("div", { class: "hw-choices" }, ...choices(check, act)),
      el("div", { class: "hw-choices" }, cannot(check.id, "None of these, or it cannot be done", act))
    );
  }

  function cannot(id, words, act) {
    return button([words], () => act({ skip: id }), { class: "hw-choice hw-cannot", "data-skip": id });
  }

  /** Hypotheses in the order of their shares, those that a test lets through. */
  function causes(of, state, test) {
    return Object.entries(state.ranking.shares)
      .map(([id, share]) => ({ ...of.causes.find((h) => h.id === id), now: share }))
      .filter(test);
  }

  /** Of causes in their order, those that are not far less likely than the first. */
  function likely(found) {
    return found.filter((h) => h.now >= FAR_LESS * found[0].now);
  }

  function named(of, found) {
    return found.slice(0, ALSO).map((h) => `${causeName(of.family, h)} (${percent(h.now)})`);
  }

  /** What else it may be: causes with another remedy that are still worth a thought. */
  function also(of, others, when = "") {
    const thought = others.filter((h) => h.now >= 0.005);
    if (!thought.length) return el("p", { class: "hw-also" }, "Nothing else in this tree fits what was seen.");
    const more = thought.length > ALSO ? ` and ${thought.length - ALSO} more` : "";
    return el("p", { class: "hw-also" }, el("b", {}, `Also possible${when}: `), `${listed(named(of, thought))}${more}.`);
  }

  function found(of, same) {
    const [first, ...rest] = same;
    return el(
      "p",
      { class: "hw-found" },
      same.length > 1 ? "One of these, and one remedy for all: " : "The likeliest cause: ",
      ...[first, ...rest].flatMap((h, number) => [
        number ? "; " : null, ...causeLinks(of.family, h), " ", el("span", { class: "hw-share" }, percent(h.now)),
      ]),
      "."
    );
  }

  function sheetLink(remedy, words = "Job sheet") {
    return remedy.sheet && el("p", {}, el("a", { class: "hw-walk-sheet", href: root() + remedy.sheet }, words));
  }

  function remedyView(of, state, act) {
    const remedy = remedyOf(of, state.step.id);
    const cures = (h) => Boolean(h.remedy) && h.remedy.id === remedy.id;
    const same = likely(causes(of, state, cures));
    const own = same.flatMap((h) => h.causes.flatMap((mode) => of.family.modes[mode].cautions));
    return el(
      "article",
      { class: "hw-walk-step", "data-remedy": remedy.id },
      heading(remedy.says),
      ...cautionsOf(of, state, own),
      facts(of.family, state.step, ""),
      found(of, same),
      same.some((h) => h.causes.length > 1) && el("p", {}, "Both must be put right."),
      sheetLink(remedy, "Job sheet: the way in, the work, the way out"),
      also(of, causes(of, state, (h) => !cures(h))),
      el("h4", { class: "hw-walk-ask" }, "Sew the customer's complaint again."),
      el(
        "div",
        { class: "hw-choices" },
        button([el("b", {}, "It is cured")], () => act({ cured: remedy.id }), { "data-cured": "yes" }),
        button([el("b", {}, "Still there")], () => act({ tried: remedy.id }), { "data-cured": "no" })
      ),
      el("div", { class: "hw-choices" }, cannot(remedy.id, "Cannot do this one", act))
    );
  }

  /** The causes that a cure has shown to be the true ones. */
  function proved(of, state) {
    const { remedy, check, outcome } = state.cured;
    const shows = (h) => (remedy ? h.remedy.id === remedy : checkOf(of, check).sees[h.id] === outcome);
    return likely(causes(of, state, (h) => Boolean(h.remedy) && shows(h)));
  }

  function curedView(of, state) {
    const it = proved(of, state);
    const names = it.map((h) => causeName(of.family, h));
    const remedy = state.cured.remedy ? remedyOf(of, state.cured.remedy) : null;
    return el(
      "article",
      { class: "hw-walk-step hw-walk-end" },
      heading(names.length ? `It was: ${listed(names.slice(0, ALSO + 1), "or")}` : "Cured"),
      remedy && el("p", {}, `Put right: ${remedy.says}.`),
      remedy && sheetLink(remedy),
      also(of, causes(of, state, (h) => !it.some((one) => one.id === h.id)), " if it comes back"),
      el("p", {}, `About ${minutes(state.spent)} in all, refitting counted. Close what is open, prove it on the customer's own fabric, and write down what was found.`),
      el("p", { class: "hw-rests" }, it.length > 1 ? "Any of them would have answered so; the record cannot tell them apart." : "")
    );
  }

  /** Nothing more is worth its minutes: what was seen is gone over again. */
  function stopView(of, state) {
    const wanting = state.unproved.map((id) => remedyOf(of, id));
    const names = named(of, causes(of, state, (h) => h.now >= 0.005));
    return el(
      "article",
      { class: "hw-walk-step hw-walk-end", "data-stop": "yes" },
      heading("Stop and think"),
      el("p", {}, "Nothing that is left is worth its minutes on what was seen. Go over it again below: one answer may be wrong, there may be two faults, or the cause is one that this book does not list."),
      el("p", { class: "hw-also" }, `As it stands: ${listed(names)}.`),
      ...wanting.map((remedy) => el("p", { class: "hw-also" }, el("b", {}, "Likely, but nothing has shown its sign: "), `${remedy.says}. Look for the sign first.`, sheetLink(remedy)))
    );
  }

  /** What few jobs show is looked at again before it is built on; a second look that shows the same counts. */
  function lookAgain({ check, outcome }, act) {
    return el(
      "div",
      { class: "hw-caution hw-again" },
      el("p", {}, el("b", {}, "Seldom seen here. "), `Look again: ${check.title}, “${check.says[outcome]}”. If it was another outcome, go back.`),
      el("div", { class: "hw-choices" }, button(["It stands"], () => act({ saw: check.id, outcome: outcome + 1 }), { "data-again": check.id }))
    );
  }

  /** The view of where the walk stands; `act` takes the log entry of what was pressed. */
  function stepView(of, state, act) {
    const view = viewOf(of, state, act);
    if (state.seldom && !state.cured) view.querySelector(".hw-walk-title").after(lookAgain(state.seldom, act));
    return view;
  }

  function viewOf(of, state, act) {
    if (state.cured) return curedView(of, state);
    if (!state.step || state.step.kind === "stop") return stopView(of, state);
    return (state.step.kind === "check" ? checkView : remedyView)(of, state, act);
  }

  handwheel.stepView = stepView;
  handwheel.provedCauses = proved;
})();
