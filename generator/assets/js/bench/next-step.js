/* The next step where no policy leads: the formula of generator/analysis/check_order/next_step.py. */
(function () {
  "use strict";
  const { wayIn, work, shut } = handwheel.machine;

  const WAITING = 0.5; // part of the waiting for other remedies that checks do not save

  const share = (left) => left.reduce((sum, h) => sum + h.weight, 0);
  const union = (open, parts) => new Set([...open, ...parts]);

  /** Of the hypotheses left, each remedy once, in their order. */
  function remediesOf(left) {
    return [...new Map(left.map((h) => [h.remedy.id, h.remedy])).values()];
  }

  /** Minutes (times weight) still to come, if remedies alone followed and waited half as long. */
  function after(family, left, open) {
    let following = 0;
    let total = 0;
    for (const { p, c } of remediesOf(left).map((r) => tried(family, left, open, r)).sort(byRatio).reverse()) {
      total += p * c + WAITING * c * following;
      following += p;
    }
    return total;
  }

  function tried(family, left, open, remedy) {
    const p = share(left.filter((h) => h.remedy.id === remedy.id));
    const c = handwheel.takes.remedy(family, remedy, open);
    return { id: remedy.id, p, c, key: c ? -p / c : -Infinity };
  }

  function byRatio(a, b) {
    return a.key === b.key ? (a.id < b.id ? -1 : 1) : a.key - b.key;
  }

  function remedyStep(family, left, open, remedy) {
    const parts = work(family, remedy).parts;
    const minutes = handwheel.takes.remedy(family, remedy, open);
    const rest = left.filter((h) => h.remedy.id !== remedy.id);
    const score = minutes + after(family, rest, union(open, parts)) / share(left);
    return { kind: "remedy", id: remedy.id, opens: shut(parts, open), minutes, score };
  }

  /** What the hypotheses left show at a check: outcomes in their order, each once. */
  function shown(left, check) {
    return [...new Set(left.map((h) => check.sees[h.id]))].sort((a, b) => a - b);
  }

  function checkStep(family, left, open, check) {
    const parts = wayIn(family, check.reach);
    const minutes = handwheel.takes.check(family, check, open);
    const then = shown(left, check)
      .filter((outcome) => !check.cured.has(outcome))
      .map((outcome) => left.filter((h) => check.sees[h.id] === outcome))
      .reduce((sum, kept) => sum + after(family, kept, union(open, parts)), 0);
    return { kind: "check", id: check.id, opens: shut(parts, open), minutes, score: minutes + then / share(left) };
  }

  /** Whether a check parts what is left, or is a trial that cures it. */
  function tells(left, check) {
    const seen = shown(left, check);
    return seen.length > 1 || seen.some((outcome) => check.cured.has(outcome));
  }

  function order(a, b) {
    if (a.score !== b.score) return a.score - b.score;
    if (a.minutes !== b.minutes) return a.minutes - b.minutes;
    if (a.kind !== b.kind) return a.kind === "remedy" ? -1 : 1;
    return a.id < b.id ? -1 : 1;
  }

  /**
   * Every useful step, the one of the least score first: {kind, id, opens, minutes, score}.
   * `weights`: hypothesis id to weight on any scale, those left out are ruled out; `open`: parts
   * that are off; `done`: checks and remedies that are done or cannot be done.
   */
  function nextStep(of, weights, open, done) {
    const left = of.hypotheses.filter((h) => weights[h.id] > 0).map((h) => ({ ...h, weight: weights[h.id] }));
    const opened = new Set(open);
    const remedies = remediesOf(left);
    const checks = remedies.length > 1 ? of.checks.filter((check) => tells(left, check)) : [];
    const steps = [
      ...remedies.map((remedy) => remedyStep(of.family, left, opened, remedy)),
      ...checks.map((check) => checkStep(of.family, left, opened, check)),
    ];
    const out = new Set(done);
    return steps.filter((step) => !out.has(step.id)).sort(order);
  }

  handwheel.diagnosis.nextStep = nextStep;
})();
