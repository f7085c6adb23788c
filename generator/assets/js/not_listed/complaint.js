/* The complaints of a machine that is not in the book, in the shape of a listed family's data. No jobs
   were counted for it, so every share rests on the author's estimate: generator/bench/complaint.py and odds.py. */
(function () {
  "use strict";

  const WEIGHT = 50; // machines that the author's estimate counts for
  const NONE_OF_THESE = "None of these";

  /** How often a failure mode is met: the mean of the estimate's Beta distribution. */
  function rate(mode) {
    const estimate = Math.min(mode.seen / 1000, 0.999);
    const [a, b] = [WEIGHT * estimate, WEIGHT * (1 - estimate)];
    return a / (a + b);
  }

  /** How often a failure mode is met, times how it shows; one that acts only with others always shows, unless it says otherwise. */
  function chance(mode, symptomId, alone) {
    const other = alone.has(mode.id) ? mode.shows_else : 1;
    return rate(mode) * (mode.shows[symptomId] ?? other);
  }

  function hypotheses(view, found, symptom) {
    const sets = handwheel.faultTree.cutSets(symptom.tree);
    const alone = new Set(sets.filter((causes) => causes.length === 1).flat());
    const drafts = sets.map((causes) => ({
      id: causes.join("+"),
      causes,
      share: causes.reduce((product, id) => product * chance(view.modes.get(id), symptom.id, alone), 1),
      remedy: handwheel.remedies.together(causes.map((id) => found.get(id))),
      rests: causes.length > 1 ? "two faults together" : "author's estimate",
    }));
    const whole = drafts.reduce((sum, h) => sum + h.share, 0);
    return drafts.map((h) => ({ ...h, share: h.share / whole }));
  }

  /** The first outcome that shows the causes: any one of them, or all where it cures; from 0. */
  function outcomeOf(check, causes) {
    const fitting = check.outcomes.findIndex(({ fits, cured }) => {
      const fit = (id) => fits.includes(id);
      return fits.length > 0 && (cured ? causes.every(fit) : causes.some(fit));
    });
    if (fitting >= 0) return fitting;
    const otherwise = check.outcomes.findIndex((outcome) => outcome.otherwise);
    return otherwise >= 0 ? otherwise : check.outcomes.length;
  }

  /** A check as it bears on the hypotheses, or null where it tells nothing about any of them. */
  function bearing(check, causesOf) {
    const sees = causesOf.map((causes) => outcomeOf(check, causes));
    const cured = check.outcomes.flatMap((outcome, number) => (outcome.cured ? [number] : []));
    if (new Set(sees).size < 2 && !cured.includes(sees[0])) return null;
    const says = check.outcomes.map((outcome) => outcome.says);
    if (sees.includes(says.length)) says.push(NONE_OF_THESE);
    return { id: check.id, says, sees, cured };
  }

  function symptomData(view, found, symptom) {
    const maybe = hypotheses(view, found, symptom);
    const causesOf = maybe.map((h) => h.causes);
    const asked = view.checks.filter((c) => !c.only_for.length || c.only_for.includes(symptom.id));
    return {
      title: symptom.title,
      hypotheses: maybe,
      checks: asked.map((check) => bearing(check, causesOf)).filter(Boolean),
      policy: null,
    };
  }

  const byId = (items) => Object.fromEntries(items.map((item) => [item.id, item]));

  function remedyData(view, found, maybe) {
    const all = new Map();
    const note = (remedy, causes) => {
      if (!all.has(remedy.id)) all.set(remedy.id, { remedy, causes: [] });
      all.get(remedy.id).causes.push(...causes);
    };
    found.forEach((remedy, mode) => note(remedy, [mode]));
    maybe.filter((h) => !all.has(h.remedy.id)).forEach((h) => note(h.remedy, h.causes));
    return byId([...all.values()].map(({ remedy, causes }) => ({
      ...remedy,
      says: handwheel.remedies.says(view, remedy, [...new Set(causes)]),
      sheet: "",
    })));
  }

  /** The machine with one of its symptoms, as data that a walk takes. Throws RangeError for too large a tree. */
  function familyData(book, chosen, symptomId) {
    const view = handwheel.unlisted.viewOf(book, chosen);
    const found = handwheel.remedies.remedies(view);
    const symptom = symptomData(view, found, view.symptoms.find((s) => s.id === symptomId));
    const remedies = remedyData(view, found, symptom.hypotheses);
    symptom.hypotheses = symptom.hypotheses.map((h) => ({ ...h, remedy: h.remedy.id }));
    return {
      title: chosen.title,
      proving: book.proving,
      mains_test: book.mains_test,
      found_out: book.found_out,
      parts: view.parts,
      settings: view.settings,
      modes: byId([...view.modes.values()]),
      remedies,
      checks: byId(view.checks.map((c) => ({ ...c, means: c.outcomes.map((o) => o.means) }))),
      cautions: book.cautions,
      symptoms: { [symptomId]: symptom },
    };
  }

  handwheel.unlisted.familyData = familyData;
})();
