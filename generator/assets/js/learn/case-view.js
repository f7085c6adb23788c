/* The machine on the practice bench: what can be done next, and what was done. */
(function () {
  "use strict";
  const { el, minutes, root } = handwheel;
  const { wayIn, work, shut } = handwheel.machine;
  const { causeName, cautionLines, listed, powerWords } = handwheel.walkWords;

  function opens(family, parts, open) {
    const closed = shut(parts, open).map((id) => family.parts[id].title);
    return closed.length ? `open: ${listed(closed)}` : "nothing to open";
  }

  function choice(title, facts, id, use) {
    return el("button", { type: "button", class: "hw-choice", "data-id": id, onclick: use }, title, el("span", {}, facts.filter(Boolean).join(" · ")));
  }

  /** A button for each check that is not done. */
  function checks(of, log, open, take) {
    const done = new Set(log.map((entry) => entry.saw));
    return of.checks
      .filter((check) => !done.has(check.id))
      .sort((a, b) => (a.title < b.title ? -1 : 1))
      .map((check) => {
        const facts = [minutes(handwheel.takes.check(of.family, check, open)), powerWords(of.family, check.power).toLowerCase(), opens(of.family, wayIn(of.family, check.reach), open)];
        return choice(check.title, facts, check.id, () => take("checked", check.id));
      });
  }

  /** A button for each remedy that is not tried, by name: the likeliest must not stand first. */
  function remedies(of, log, open, take) {
    const done = new Set(log.map((entry) => entry.tried));
    const { now } = handwheel.journey.soFar(of, log);
    const unseen = (id) => handwheel.doubt.unproved(of, now, id) && "dear, and its sign not seen yet";
    const all = [...new Map(of.hypotheses.map((h) => [h.remedy.id, h.remedy])).values()];
    return all
      .filter((remedy) => !done.has(remedy.id))
      .sort((a, b) => (a.says < b.says ? -1 : 1))
      .map((remedy) => {
        const causes = of.hypotheses.filter((h) => h.remedy.id === remedy.id).map((h) => causeName(of.family, h));
        const facts = [minutes(handwheel.takes.remedy(of.family, remedy, open)), `for: ${listed(causes, "or")}`, opens(of.family, work(of.family, remedy).parts, open), unseen(remedy.id)];
        return choice(remedy.says, facts, remedy.id, () => take("mended", remedy.id));
      });
  }

  /** What an entry of the log was and gave, in words. */
  function told(of, entry) {
    if (entry.saw) {
      const check = handwheel.journey.checkOf(of, entry.saw);
      const link = el("a", { href: `${root()}checks/${check.id}.html` }, check.title);
      return [link, ": ", el("b", {}, check.says[entry.outcome - 1])];
    }
    const id = entry.tried || entry.cured;
    return [of.family.remedies[id].says, ": ", el("b", {}, entry.cured ? "the machine sews." : "the fault is still there.")];
  }

  /** The cautions of all that can be done here; they stand before the choices. */
  function cautions(of) {
    const { family } = of;
    const modes = of.hypotheses.flatMap((h) => h.causes).flatMap((mode) => family.modes[mode].cautions);
    const parts = of.hypotheses.flatMap((h) => [...work(family, h.remedy).parts]).flatMap((part) => family.parts[part].cautions);
    return cautionLines(family, [...of.checks.flatMap((check) => check.cautions), ...modes, ...parts]);
  }

  handwheel.practiceCaseView = { checks, remedies, told, cautions };
})();
