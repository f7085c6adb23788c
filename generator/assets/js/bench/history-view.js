/* What was seen and done so far, each of it open to change; and the walk as a message to send. */
(function () {
  "use strict";
  const { el, percent } = handwheel;
  const { checkOf, remedyOf } = handwheel.journey;
  const { listed, causeName } = handwheel.walkWords;

  /** An entry in words: what was done, what came of it. */
  function entryWords(of, entry) {
    if (entry.saw) {
      const check = checkOf(of, entry.saw);
      return [check.title, check.says[entry.outcome - 1]];
    }
    const id = entry.skip || entry.tried || entry.cured;
    const name = (checkOf(of, id) || {}).title || remedyOf(of, id).says;
    return [name, entry.skip ? "Told nothing, or not done" : entry.tried ? "Still there" : "Cured"];
  }

  function item(of, entry, number, cut) {
    const [name, came] = entryWords(of, entry);
    const change = { type: "button", class: "hw-plain", onclick: () => cut(number), "aria-label": `Change: ${name}` };
    return el("li", {}, el("span", {}, `${name}: `, el("b", {}, came)), el("button", change, "Change"));
  }

  /** The log as a list; `cut` is told the number of the entry to go back to. */
  function historyView(of, log, cut) {
    if (!log.length) return null;
    const items = log.map((entry, number) => item(of, entry, number, cut));
    return el("div", { class: "hw-walk-history" }, el("h3", {}, "So far"), el("ol", {}, ...items));
  }

  /** The walk in words, its link last. */
  function message(of, log, state, link) {
    const likely = Object.entries(state.ranking.shares).slice(0, 3);
    const name = (id) => causeName(of.family, of.causes.find((h) => h.id === id));
    return [
      `${of.symptom.title}, ${of.family.title}`,
      ...log.map((entry, number) => `${number + 1}. ${entryWords(of, entry).join(": ")}`),
      `Likeliest: ${listed(likely.map(([id, share]) => `${name(id)} ${percent(share)}`))}.`,
      link,
    ].join("\n");
  }

  handwheel.walkHistory = { historyView, message };
})();
