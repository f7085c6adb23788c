/* Causes ranked after what was seen and done: the words of generator/analysis/doubt/ranking.py. */
(function () {
  "use strict";
  const { sum, shows } = handwheel.doubt;

  const USED_UP =
    "What fits all that was seen has been put right, and the fault is still there. " +
    "One answer may be wrong, or there are two faults; the shares show what fits best.";
  const TWO_FAULTS =
    "No single cause fits all that was seen. One answer may be wrong, or there are two faults; " +
    "the shares show what fits best.";

  function nobodyShows(check) {
    return (
      `No cause in this tree shows what was seen at '${check}'. ` +
      "Look again; if it stands, the cause is one that nobody has written down yet."
    );
  }

  /**
   * {shares, said} of a standing: cause id to share, the largest first, and a sentence where the answers
   * contradict everything. An answer: {check, outcome}, a check of the case and an outcome from 0.
   */
  function rank(of, now, answers) {
    const weights = sum(now.weights) > 0 ? now.weights : of.causes.map((cause) => cause.share);
    const whole = sum(weights);
    const ranked = of.causes.map((cause, n) => [cause.id, weights[n]]).sort(([a, v], [b, w]) => w - v || (a < b ? -1 : 1));
    return { shares: Object.fromEntries(ranked.map(([id, weight]) => [id, weight / whole])), said: said(of, now, answers) };
  }

  function said(of, now, answers) {
    const fits = (cause) => answers.every(({ check, outcome }) => shows(check, cause) === outcome);
    const fitting = of.causes.filter(fits);
    if (fitting.some((cause) => !cause.remedy || !now.tried.has(cause.remedy.id))) return "";
    if (fitting.length) return USED_UP;
    const lone = answers.find(({ check, outcome }) => of.causes.every((cause) => shows(check, cause) !== outcome));
    return lone ? nobodyShows(lone.check.id) : TWO_FAULTS;
  }

  handwheel.diagnosis = { rank };
})();
