/* Causes ranked by Bayes' rule: the same reckoning and the same words as generator/analysis/diagnosis.py. */
(function () {
  "use strict";

  const TWO_FAULTS =
    "No single cause fits all that was seen. One answer may be wrong, or there are two faults; " +
    "the shares show what fits best.";

  function nobodyShows(check) {
    return (
      `No cause in this tree shows what was seen at '${check}'. ` +
      "Look again; if it stands, the cause is one that nobody has written down yet."
    );
  }

  /** How likely an answer is if the hypothesis is true; doubt is spread over the other outcomes. */
  function likelihood(answer, hypothesis) {
    if (answer.outcomes === 1) return 1;
    if (answer.sees[hypothesis] === answer.outcome) return answer.trust;
    return (1 - answer.trust) / (answer.outcomes - 1);
  }

  function weighed(prior, answers) {
    const after = ([id, weight]) => [id, answers.reduce((w, a) => w * likelihood(a, id), weight)];
    return Object.entries(prior).map(after);
  }

  function sum(weights) {
    return weights.reduce((total, [, weight]) => total + weight, 0);
  }

  /**
   * The hypotheses by share after the answers.
   * `prior`: id to weight. An answer: {check, outcome, outcomes, sees, trust}; `outcome` and what
   * `sees` gives for a hypothesis count from 0, `outcomes` is how many the check has.
   */
  function rank(prior, answers) {
    let weights = weighed(prior, answers);
    if (sum(weights) === 0) weights = Object.entries(prior);
    const whole = sum(weights);
    weights.sort(([a, v], [b, w]) => w - v || (a < b ? -1 : 1));
    const order = weights.map(([id]) => id);
    const against = (id) => answers.filter((a) => a.sees[id] !== a.outcome).length;
    const fewest = Math.min(...order.map(against));
    return {
      shares: Object.fromEntries(weights.map(([id, weight]) => [id, weight / whole])),
      agreeing: order.filter((id) => against(id) === fewest),
      against: fewest,
      said: contradiction(answers, fewest, order),
    };
  }

  function contradiction(answers, fewest, hypotheses) {
    if (fewest === 0) return "";
    const lone = answers.find((a) => hypotheses.every((id) => a.sees[id] !== a.outcome));
    return lone ? nobodyShows(lone.check) : TWO_FAULTS;
  }

  handwheel.diagnosis = { rank };
})();
