/* The next step where no written order leads: the formulas of generator/analysis/doubt/next_step.py and outlook.py. */
(function () {
  "use strict";
  const { wayIn, work, shut } = handwheel.machine;
  const { sum, signs, facts, after, unsafe, unproved } = handwheel.doubt;

  const GRAIN = 1e6; // scores are compared in millionths of a minute, so that rounding decides nothing
  const WAITING = 0.15; // part of the waiting for other remedies that checks do not save

  const grains = (minutes) => Math.floor(minutes * GRAIN + 0.5);
  const remediesOf = (of) => [...new Map(of.hypotheses.map((h) => [h.remedy.id, h.remedy])).values()];

  /** What a whole chance to cure is worth, in minutes. */
  const worth = (of) => of.doubt.cures * (of.doubt.stop + of.doubt.come_back);

  function firstOf(of, now) {
    return of.doubt.before.find((id) => !now.checked.has(id));
  }

  function allowedChecks(of, now) {
    const first = firstOf(of, now);
    if (first) return of.checks.filter((check) => check.id === first);
    const waits = (check) => facts(of).get(check.id).after.some((id) => !now.checked.has(id));
    const dark = unsafe(now);
    const kept = (check) => !now.checked.has(check.id) && !waits(check) && !(dark && of.doubt.powered.includes(check.id));
    return of.checks.filter(kept);
  }

  function allowedRemedies(of, now) {
    if (firstOf(of, now)) return [];
    const waits = (id) => after(of, id).some((check) => !now.checked.has(check));
    const mends = unsafe(now);
    const kept = (id) => !now.tried.has(id) && !waits(id) && !unproved(of, now, id) && (!mends || mends.has(id));
    return remediesOf(of).filter(({ id }) => kept(id));
  }

  function weightOf(of, now, test) {
    return sum(of.causes.map((cause, n) => (cause.remedy && test(cause) ? now.weights[n] : 0)));
  }

  function checkStep(of, now, check) {
    const { tells } = facts(of).get(check.id);
    const chance = weightOf(of, now, (h) => tells.has(h.id) && !now.tried.has(h.remedy.id)) / sum(now.weights);
    const minutes = handwheel.takes.check(of.family, check, now.open);
    const opens = shut(wayIn(of.family, check.reach), now.open);
    return { kind: "check", id: check.id, opens, minutes, score: chance ? minutes / chance : Infinity };
  }

  function remedyStep(of, now, remedy) {
    const chance = weightOf(of, now, (h) => h.remedy.id === remedy.id) / sum(now.weights);
    const minutes = handwheel.takes.remedy(of.family, remedy, now.open);
    const opens = shut(work(of.family, remedy).parts, now.open);
    return { kind: "remedy", id: remedy.id, opens, minutes, score: chance ? minutes / chance : Infinity };
  }

  function order(a, b) {
    const by = (key) => grains(a[key]) - grains(b[key]);
    const rank = ({ kind }) => ["remedy", "check", "stop"].indexOf(kind);
    return by("score") || by("minutes") || rank(a) - rank(b) || (a.id < b.id ? -1 : 1);
  }

  /**
   * Every step that may come next and has a chance, the one of the least score first:
   * {kind, id, opens, minutes, score}; `kind` is check, remedy or stop. None where nothing is possible.
   */
  function nextSteps(of, now) {
    if (!(sum(now.weights) > 0)) return [];
    const checks = allowedChecks(of, now).map((check) => checkStep(of, now, check));
    if (firstOf(of, now)) return checks;
    const steps = [...checks, ...allowedRemedies(of, now).map((remedy) => remedyStep(of, now, remedy))];
    const stop = { kind: "stop", id: "", opens: [], minutes: of.doubt.stop, score: worth(of) };
    return [...steps.filter((step) => step.score < Infinity), stop].sort(order);
  }

  /** Minutes of a remedy with the cheapest check that can still prove it, if it wants a proof. */
  function withProof(of, now, remedy) {
    const minutes = handwheel.takes.remedy(of.family, remedy, now.open);
    if (!unproved(of, now, remedy.id)) return minutes;
    const proves = (check) => check.says.some((_, outcome) => signs(of, check, outcome).includes(remedy.id));
    const proofs = of.checks.filter((check) => !now.checked.has(check.id) && proves(check));
    return minutes + Math.min(...proofs.map((check) => handwheel.takes.check(of.family, check, now.open)));
  }

  /** Minutes still to come for one job, if remedies alone followed (on a fault, what mends it), and then stopping to think. */
  function outlook(of, now) {
    const { stop, come_back: comeBack, cures } = of.doubt;
    const whole = sum(now.weights);
    let [rest, listed, total] = [whole, whole - now.weights[now.weights.length - 1], 0];
    const mends = unsafe(now);
    const left = remediesOf(of)
      .filter(({ id }) => !now.tried.has(id) && (!mends || mends.has(id)))
      .map((remedy) => ({ p: weightOf(of, now, (h) => h.remedy.id === remedy.id), c: withProof(of, now, remedy) }))
      .filter(({ p }) => p > 0)
      .sort((a, b) => a.c / a.p - b.c / b.p || a.p - b.p);
    for (const { p, c } of left) {
      const takes = c * (p + WAITING * (rest - p));
      if (takes < worth(of) * p) [total, rest, listed] = [total + takes, rest - cures * p, listed - cures * p];
    }
    return (total + rest * stop + listed * comeBack) / whole;
  }

  Object.assign(handwheel.diagnosis, { nextSteps, outlook });
})();
