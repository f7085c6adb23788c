/* One symptom of one family, as the scripts reckon with it. */
(function () {
  "use strict";

  const SOMETHING_ELSE = "something else"; // id of the cause that no record lists; record ids hold no space

  /**
   * The data's lists with their references followed: hypotheses hold their remedy, checks their
   * record and, by hypothesis, the index of the outcome that is seen (from 0, as in the data).
   * `causes` are the hypotheses and, last, the one that is not listed, which has no remedy.
   */
  function caseOf(family, symptomId) {
    const symptom = family.symptoms[symptomId];
    const ids = symptom.hypotheses.map((h) => h.id);
    const hypotheses = symptom.hypotheses.map((h) => ({ ...h, remedy: { id: h.remedy, ...family.remedies[h.remedy] } }));
    return {
      family,
      symptom,
      doubt: symptom.doubt,
      hypotheses,
      causes: [...hypotheses, { id: SOMETHING_ELSE, causes: [], share: symptom.doubt.unlisted, remedy: null, rests: "nothing in this book" }],
      checks: symptom.checks.map((c) => ({
        ...family.checks[c.id],
        id: c.id,
        says: c.says,
        sees: Object.fromEntries(ids.map((id, number) => [id, c.sees[number]])),
        cured: new Set(c.cured),
        sound: c.sound,
        trust: c.trust,
        does: c.does,
      })),
    };
  }

  handwheel.caseOf = caseOf;
})();
