/* A job as it is at the bench, where readings deceive and remedies fail: generator/analysis/doubt/ says the
   same. A standing is {weights, open, checked, tried, proved, faults}: a weight for each cause of the case, the
   unlisted one last; sets of ids; and what checks that must be found sound have shown instead, by each the
   remedies that mend it. */
(function () {
  "use strict";
  const { wayIn, work } = handwheel.machine;

  const sum = (numbers) => numbers.reduce((total, number) => total + number, 0);
  const within = (some, all) => [...some].every((id) => all.has(id));

  /** The outcome that a cause shows at a check; the unlisted cause shows what a sound machine does. */
  function shows(check, cause) {
    return cause.remedy ? check.sees[cause.id] : check.sound;
  }

  /** How likely an outcome is seen of a cause that shows a certain one. */
  function chance(check, outcome, shown) {
    const others = check.says.filter((_, n) => n !== shown && !check.cured.has(n)).length;
    if (outcome === shown) return others ? check.trust[shown] : 1;
    return check.cured.has(outcome) ? 0 : (1 - check.trust[shown]) / others;
  }

  /** Remedies whose own sign an outcome is: a cause shows it and a sound machine does not. */
  function signs(of, check, outcome) {
    if (outcome === check.sound || check.cured.has(outcome)) return [];
    return of.hypotheses.filter((h) => check.sees[h.id] === outcome).map((h) => h.remedy.id);
  }

  /** Remedies that a check does: those its record names, and those that its trial would do as well. */
  function done(of, check) {
    const others = new Set(of.hypotheses.filter((h) => !check.cured.has(check.sees[h.id])).map((h) => h.remedy.id));
    const tried = of.hypotheses.map((h) => h.remedy.id).filter((id) => !others.has(id));
    return new Set([...check.does, ...tried]);
  }

  /** Checks that must come before a check or a remedy, which destroys what they read. */
  function after(of, id) {
    const there = new Set(of.checks.map((check) => check.id));
    return of.doubt.lost.filter((lost) => lost.by === id && there.has(lost.reads)).map((lost) => lost.reads);
  }

  /** Causes that a check tells from a sound machine, and those that what must wait for it tells or mends. */
  function told(of, check) {
    const waiting = of.checks.filter((other) => after(of, other.id).includes(check.id)).flatMap((other) => [...told(of, other)]);
    const own = of.hypotheses.filter((h) => check.sees[h.id] !== check.sound || after(of, h.remedy.id).includes(check.id));
    return new Set([...own.map((h) => h.id), ...waiting]);
  }

  /** The facts that steps are chosen by, worked out once for a case: {does, after, tells} by check. */
  function facts(of) {
    if (!of.facts) {
      const fact = (check) => [check.id, { does: done(of, check), after: after(of, check.id), tells: told(of, check) }];
      of.facts = new Map(of.checks.map(fact));
    }
    return of.facts;
  }

  /** A closed machine of which nothing was seen. */
  function start(of) {
    const none = () => new Set();
    return { weights: of.causes.map((cause) => cause.share), open: none(), checked: none(), tried: none(), proved: none(), faults: [] };
  }

  /** Trials that would only repeat remedies that were done: they count as done with them. */
  function repeats(of, tried) {
    const isRepeat = (check) => check.cured.size && facts(of).get(check.id).does.size && within(facts(of).get(check.id).does, tried);
    return of.checks.filter(isRepeat).map((check) => check.id);
  }

  function isFault(of, check, outcome) {
    return of.doubt.safe.includes(check.id) && outcome !== check.sound;
  }

  /** Null where power may go on; else the remedies that may mend what was found and are not done: not cured, the fault still stands. */
  function unsafe(now) {
    const left = (mends) => mends.filter((id) => !now.tried.has(id));
    const open = now.faults.filter((mends) => !mends.length || left(mends).length);
    return open.length ? new Set(open.flatMap(left)) : null;
  }

  /** After a check has shown an outcome, from 0 (Bayes' rule). */
  function seen(of, now, check, outcome) {
    const tried = new Set([...now.tried, ...facts(of).get(check.id).does]);
    return {
      weights: now.weights.map((w, n) => w * chance(check, outcome, shows(check, of.causes[n]))),
      open: new Set([...now.open, ...wayIn(of.family, check.reach)]),
      checked: new Set([...now.checked, check.id, ...repeats(of, tried)]),
      tried,
      proved: new Set([...now.proved, ...signs(of, check, outcome)]),
      faults: isFault(of, check, outcome) ? [...now.faults, signs(of, check, outcome)] : now.faults,
    };
  }

  /** After a remedy has not cured the machine. */
  function notCured(of, now, remedy) {
    const tried = new Set([...now.tried, remedy.id]);
    const cures = (cause) => cause.remedy && cause.remedy.id === remedy.id;
    return {
      ...now,
      weights: now.weights.map((w, n) => (cures(of.causes[n]) ? w * (1 - of.doubt.cures) : w)),
      open: new Set([...now.open, ...work(of.family, remedy).parts]),
      checked: new Set([...now.checked, ...repeats(of, tried)]),
      tried,
    };
  }

  /** With a check or a remedy that cannot be done, or that has told nothing. */
  function passedOver(now, id) {
    return { ...now, checked: new Set([...now.checked, id]), tried: new Set([...now.tried, id]) };
  }

  /** Whether a remedy must not be done yet, because nothing has shown its sign. */
  function unproved(of, now, id) {
    return of.doubt.wants_proof.includes(id) && !now.proved.has(id);
  }

  handwheel.doubt = { sum, shows, signs, facts, after, unsafe, start, seen, notCured, passedOver, unproved };
})();
