/* The way in and the way out together: as generator/analysis/job/ways.py. */
(function () {
  "use strict";
  const { wayIn } = handwheel.machine;
  const { UPRIGHT, order, refitsAndMakings, keptOn } = handwheel.job;

  /** How the machine lies once these parts are off. */
  const liesAfter = (family, parts) => parts.map((part) => family.parts[part].off_position).filter(Boolean).pop() || UPRIGHT;

  /** Parts of the work that a setting or check needs on, with all behind them. */
  function wantedOn(family, work) {
    const named = [...work.settings].flatMap((s) => {
      const { parts_on, proved_by } = family.settings[s];
      return [...parts_on, ...(proved_by ? family.checks[proved_by].parts_on : [])];
    });
    return keptOn(family, named, [...work.parts]);
  }

  /** Parts that come off on the way out though nothing before has needed them on. */
  function offBeforeWanted(family, { done }, waiting) {
    const wanted = new Set();
    const found = [];
    for (const one of done) {
      const on = one.setting ? family.settings[one.setting].parts_on : one.check ? family.checks[one.check].parts_on : [];
      keptOn(family, on, waiting).forEach((p) => wanted.add(p));
      if (one.takeOff && !wanted.has(one.takeOff)) found.push(one.takeOff);
    }
    return new Set(found);
  }

  /** What the work itself does not need off: all of it, and what the machine is turned for with all behind that. */
  function late(family, work, reached) {
    const unreached = [...work.parts].filter((p) => !reached.has(p));
    const turned = unreached.filter((p) => !["", UPRIGHT].includes(family.parts[p].off_position));
    return [unreached, keptOn(family, turned, unreached)].filter((parts) => parts.length).map((parts) => new Set(parts));
  }

  function weighed(family, whole, work) {
    const everything = order(family, work.parts);
    const ways = (stillOn) => {
      const off = [...work.parts].filter((p) => !stillOn.has(p));
      const way = stillOn.size ? order(family, off) : everything;
      const parts = [...way.parts, ...everything.parts.filter((p) => stillOn.has(p))];
      return { way, back: refitsAndMakings(family, work.settings, parts, liesAfter(family, way.parts), stillOn) };
    };
    const found = [ways(new Set())];
    const reached = wayIn(family, [...whole.renew, ...whole.reach]);
    const waiting = wantedOn(family, work).filter((p) => !reached.has(p));
    if (waiting.length) {
      found.push(ways(new Set(waiting)));
      const early = found[1].back ? offBeforeWanted(family, found[1].back, waiting) : new Set();
      const needed = waiting.filter((p) => !early.has(p));
      if (early.size) found.push(ways(new Set(keptOn(family, needed, waiting))));
    }
    return [...found, ...late(family, work, reached).map(ways)].filter(({ back }) => back);
  }

  /** {way, back}: the least in minutes, then in turns of the machine. */
  function leastWays(family, whole, work) {
    const cost = ({ way, back }) => [back.givenUp, back.extra, way.changes.position + back.turns];
    const less = (a, b) => a.map((n, place) => n - b[place]).find((difference) => difference) < 0;
    return weighed(family, whole, work).reduce((a, b) => (less(cost(b), cost(a)) ? b : a));
  }

  handwheel.job.leastWays = leastWays;
})();
