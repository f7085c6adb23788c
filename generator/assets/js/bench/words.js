/* Names and links of what a walk speaks of. */
(function () {
  "use strict";
  const { el, root } = handwheel;

  const POWER = {
    off: "Unplugged",
    on: "Power on",
    "handwheel-only": "Unplugged, by the hand wheel",
  };
  const SOMETHING_ELSE = "Something that this book does not list";
  const WITHOUT_A_PLUG = { off: "Standing still", "handwheel-only": "Turned by hand" };

  /** What the power is to be for a check; a machine without a motor has no plug to pull. */
  function powerWords(family, power) {
    return (family.by_hand && WITHOUT_A_PLUG[power]) || POWER[power];
  }

  /** Words as a sentence lists them. */
  function listed(words, last = "and") {
    if (words.length < 2) return words.join("");
    return `${words.slice(0, -1).join(", ")} ${last} ${words[words.length - 1]}`;
  }

  /** A hypothesis by the titles of its failure modes. */
  function causeName(family, hypothesis) {
    if (!hypothesis.causes.length) return SOMETHING_ELSE;
    return listed(hypothesis.causes.map((mode) => family.modes[mode].title));
  }

  function causeLinks(family, hypothesis) {
    if (!hypothesis.causes.length) return [SOMETHING_ELSE];
    return hypothesis.causes.flatMap((mode, number) => [
      number ? " and " : "",
      el("a", { href: `${root()}failure-modes/${mode}.html` }, family.modes[mode].title),
    ]);
  }

  /** Part names, each leading to how it comes off. */
  function partLinks(family, parts) {
    return parts.flatMap((id, number) => [
      number ? ", " : "",
      el("a", { href: `${root()}assemblies/${family.parts[id].home}.html#${id}` }, family.parts[id].title),
    ]);
  }

  /** One line for each caution, in the look of the printed ones; what can hurt most comes first. */
  function cautionLines(family, ids) {
    return [...new Set(ids)]
      .filter((id) => family.cautions[id])
      .sort((a, b) => Number(family.cautions[b].level === "danger") - Number(family.cautions[a].level === "danger"))
      .map((id) => {
        const { title, text, level } = family.cautions[id];
        const link = el("a", { href: `${root()}cautions.html#${id}` }, `${title}.`);
        return el("p", { class: `hw-caution-line hw-${level}`, "data-caution": id }, el("b", {}, link), ` ${text}`);
      });
  }

  /** Cautions told earlier on the walk: their names, each leading to its words. */
  function cautionNames(family, ids) {
    const named = [...new Set(ids)].filter((id) => family.cautions[id]);
    if (!named.length) return null;
    const danger = named.some((id) => family.cautions[id].level === "danger");
    const link = (id) => el("b", {}, el("a", { href: `${root()}cautions.html#${id}` }, `${family.cautions[id].title}.`));
    return el("p", { class: `hw-caution-line${danger ? " hw-danger" : ""}` }, ...named.flatMap((id) => [link(id), " "]));
  }

  /** What must be back before the power goes on for a step. */
  function putBack(family, parts, power) {
    if (!parts.length || power !== "on") return null;
    const then = ". Put back what sewing needs, and every guard, before the power goes on.";
    return el("p", { class: "hw-caution-line hw-danger" }, el("b", {}, "Off from before: "), ...partLinks(family, parts), then);
  }

  /** What to know before a step: power, minutes, what to open. */
  function facts(family, step, power) {
    const opens = step.opens.length ? ["Open: ", ...partLinks(family, step.opens)] : ["Nothing to open"];
    return el(
      "ul",
      { class: "hw-facts" },
      power && el("li", { class: `hw-power${power === "on" ? " hw-live" : ""}` }, powerWords(family, power)),
      el("li", { class: "hw-min" }, handwheel.minutes(step.minutes)),
      el("li", {}, ...opens)
    );
  }

  /** The sentence that ranking said, with a check's title where it names one. */
  function said(of, sentence) {
    const check = of.checks.find((c) => sentence.includes(`'${c.id}'`));
    return check ? sentence.replace(`'${check.id}'`, () => `'${check.title}'`) : sentence;
  }

  handwheel.walkWords = { listed, causeName, causeLinks, partLinks, cautionLines, cautionNames, putBack, facts, powerWords, said };
})();
