/* The step to do now, in large type: a check, a remedy, or the end. */
(function () {
  "use strict";
  const { el, root, minutes, percent } = handwheel;
  const { checkOf, remedyOf } = handwheel.journey;
  const { listed, causeName, causeLinks, cautionLines, cautionNames, putBack, facts } = handwheel.walkWords;

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

  function choices(check, act) {
    return check.says.map((says, index) => {
      const means = check.cured.has(index) ? "Then the job is done." : check.means[index];
      const words = [el("b", {}, says), means && el("span", {}, means)];
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
      check.expect && el("p", { class: "hw-expect" }, el("b", {}, "A good one:"), ` ${check.expect}`),
      el("h4", { class: "hw-walk-ask" }, "What do you see?"),
      el("div", { class: "hw-choices" }, ...choices(check, act)),
      el("div", { class: "hw-choices" }, cannot(check.id, act))
    );
  }

  function cannot(id, act) {
    return button(["Cannot do this one"], () => act({ skip: id }), { class: "hw-choice hw-cannot", "data-skip": id });
  }

  /** Hypotheses in the order of their shares, those that a test lets through. */
  function causes(of, state, test) {
    return Object.entries(state.ranking.shares)
      .map(([id, share]) => ({ ...of.hypotheses.find((h) => h.id === id), now: share }))
      .filter(test);
  }

  function named(of, found) {
    return found.slice(0, ALSO).map((h) => `${causeName(of.family, h)} (${percent(h.now)})`);
  }

  /** What else it may be: causes with another remedy that are still worth a thought. */
  function also(of, others, when = "") {
    const likely = others.filter((h) => h.now >= 0.005);
    if (!likely.length) return el("p", { class: "hw-also" }, "Nothing else in this tree fits what was seen.");
    const more = likely.length > ALSO ? ` and ${likely.length - ALSO} more` : "";
    return el("p", { class: "hw-also" }, el("b", {}, `Also possible${when}: `), `${listed(named(of, likely))}${more}.`);
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
    const cures = (h) => h.remedy.id === remedy.id;
    const same = causes(of, state, (h) => cures(h) && state.ranking.agreeing.includes(h.id));
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
      el("div", { class: "hw-choices" }, cannot(remedy.id, act))
    );
  }

  /** The causes that a cure has shown to be the true ones. */
  function proved(of, state) {
    const { remedy, check, outcome } = state.cured;
    const shows = (h) => (remedy ? h.remedy.id === remedy : checkOf(of, check).sees[h.id] === outcome);
    const likely = causes(of, state, (h) => shows(h) && state.ranking.agreeing.includes(h.id));
    return likely.length ? likely : causes(of, state, shows);
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

  function emptyView(of, state) {
    const left = causes(of, state, (h) => state.ranking.agreeing.includes(h.id));
    return el(
      "article",
      { class: "hw-walk-step hw-walk-end" },
      heading(state.empty ? "Every cause in this tree was tried" : "Nothing more can be done from here"),
      state.empty
        ? el("p", {}, "Go back over what you saw. If it stands, the cause is one that nobody has written down yet.")
        : el("p", {}, "Still possible: ", listed(named(of, left)), ". Its remedy was passed over: ", [...new Set(left.map((h) => h.remedy.says))].slice(0, ALSO).join("; "), ".")
    );
  }

  /** The view of where the walk stands; `act` takes the log entry of what was pressed. */
  function stepView(of, state, act) {
    if (state.cured) return curedView(of, state);
    if (!state.step) return emptyView(of, state);
    return (state.step.kind === "check" ? checkView : remedyView)(of, state, act);
  }

  handwheel.stepView = stepView;
})();
