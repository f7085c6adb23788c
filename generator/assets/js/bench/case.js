/* One symptom of one family, as the scripts reckon with it. */
(function () {
  "use strict";

  /**
   * The data's lists with their references followed: hypotheses hold their remedy, checks their
   * record and, by hypothesis, the index of the outcome that is seen (from 0, as in the data).
   */
  function caseOf(family, symptomId) {
    const symptom = family.symptoms[symptomId];
    const ids = symptom.hypotheses.map((h) => h.id);
    return {
      family,
      symptom,
      hypotheses: symptom.hypotheses.map((h) => ({ ...h, remedy: { id: h.remedy, ...family.remedies[h.remedy] } })),
      checks: symptom.checks.map((c) => ({
        ...family.checks[c.id],
        id: c.id,
        says: c.says,
        sees: Object.fromEntries(ids.map((id, number) => [id, c.sees[number]])),
        cured: new Set(c.cured),
      })),
    };
  }

  /** Hypothesis id to its share before anything was seen. */
  function priorOf(hypotheses) {
    return Object.fromEntries(hypotheses.map((h) => [h.id, h.share]));
  }

  handwheel.caseOf = caseOf;
  handwheel.priorOf = priorOf;
})();
