/* The end of a practice job: the cause, the minutes beside the best, and what each step told. */
(function () {
  "use strict";
  const { el, minutes, percent, root } = handwheel;
  const { causeLinks } = handwheel.walkWords;

  function figures(machine, spent) {
    const rows = [
      ["Your minutes", spent],
      ["The book's order, for this very fault", handwheel.practice.plannedMinutes(machine)],
      ["The book's order, over all causes of this complaint", machine.of.symptom.expected],
    ];
    const cell = ([name, value]) => el("tr", {}, el("th", { scope: "row" }, name), el("td", {}, minutes(value)));
    return el("table", { class: "hw-table" }, el("tbody", {}, ...rows.map(cell)));
  }

  function moved(machine, log) {
    const shares = handwheel.practice.shareOfTruth(machine, log);
    const way = (n) => `. True cause: ${percent(shares[n])} to ${percent(shares[n + 1])}.`;
    return el("ol", {}, ...log.map((entry, n) => el("li", {}, ...handwheel.practiceCaseView.told(machine.of, entry), entry.saw ? way(n) : "", misled(machine, entry))));
  }

  function misled(machine, entry) {
    if (!entry.saw) return "";
    const truth = handwheel.journey.checkOf(machine.of, entry.saw).sees[machine.fault.id];
    return truth === entry.outcome - 1 ? "" : " This one misled: no check is always right.";
  }

  /** A branch of the tree: [title, branches]; where it ends stands the cause. */
  function branch([title, below]) {
    return el("li", {}, below.length ? title : el("mark", {}, title), below.length > 0 && el("ul", {}, ...below.map(branch)));
  }

  function path(machine, paths) {
    const { symptom, family } = machine.of;
    const id = Object.keys(family.symptoms).find((name) => family.symptoms[name] === symptom);
    const bench = el("a", { href: `${root()}bench/${family.id}/${id}.html` }, "The bench page of this complaint");
    return [el("ul", { class: "hw-practice-path" }, branch(paths.symptoms[id][machine.fault.id])), el("p", {}, bench)];
  }

  /** What was done on a guess; the book does no dear work before its sign was seen. */
  function guessed(unproved) {
    const times = unproved > 1 ? `${unproved} times` : "once";
    return unproved > 0 && el("p", {}, `Dear work was done ${times} before its sign was seen. The book waits for the sign, unless nothing can show it.`);
  }

  function result(machine, log, { spent, unproved }, paths) {
    const told = [
      el("h3", { tabindex: "-1" }, "It was: ", ...causeLinks(machine.of.family, machine.fault)),
      figures(machine, spent),
      guessed(unproved),
      el("p", { class: "hw-rests" }, "The book's minutes for this fault suppose that every check shows the truth and every remedy cures. One machine can be luck; compare over many."),
      el("h3", {}, "What each step told you"),
      moved(machine, log),
      el("h3", {}, "Its way through the fault tree"),
      ...path(machine, paths),
    ];
    return told.filter(Boolean);
  }

  handwheel.practiceResult = result;
})();
