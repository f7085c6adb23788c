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

  /** What a sound machine shows: the outcome that is good, else the one that takes what no other fits; from 0. */
  function soundOutcome(check) {
    const find = (test) => check.outcomes.findIndex((outcome) => !outcome.cured && test(outcome));
    const [good, otherwise] = [find((o) => o.good), find((o) => o.otherwise)];
    if (good >= 0) return good;
    return otherwise >= 0 ? otherwise : check.outcomes.length;
  }

  /** A check as it bears on the hypotheses, or null where none shows anything but what a sound machine does. */
  function bearing(check, maybe) {
    const sees = maybe.map(({ causes }) => outcomeOf(check, causes));
    const cured = check.outcomes.flatMap((outcome, number) => (outcome.cured ? [number] : []));
    const sound = soundOutcome(check);
    if (sees.every((outcome) => outcome === sound)) return null;
    const says = check.outcomes.map((outcome) => outcome.says);
    if ([sound, ...sees].includes(says.length)) says.push(NONE_OF_THESE);
    return { id: check.id, says, sees, cured, sound, trust: says.map(() => check.trust), does: done(check, maybe) };
  }

  /** Remedies that a check does on its way: those of the causes that its record names. */
  function done(check, maybe) {
    const all = maybe.filter((h) => h.causes.every((id) => check.does.includes(id)));
    return [...new Set(all.map((h) => h.remedy.id))].sort();
  }

  /** What comes first, what must be sound before power goes on, and what destroys what is read. */
  function orderOf(symptom, checks) {
    const there = new Set(checks.map((check) => check.id));
    const before = symptom.before.filter((id) => there.has(id));
    return {
      before,
      safe: symptom.stop ? [...before].sort() : [],
      powered: checks.filter((check) => check.power === "on").map((check) => check.id).sort(),
      lost: checks.flatMap((check) => check.evidence_lost_by.filter((id) => there.has(id)).map((by) => ({ by, reads: check.id }))),
    };
  }

  /** Without the dust of sums of decimals, as generator/bench/doubt.py. */
  const minutesOf = (family, remedy) => Number(handwheel.takes.remedy(family, remedy, new Set()).toFixed(6));

  /** Remedies of the shop's dear minutes or price that a record does not excuse from being proved. */
  function wantsProof(book, view, maybe) {
    const family = { parts: view.parts, settings: view.settings, proving: book.proving, mains_test: book.mains_test, found_out: book.found_out };
    const byPrice = (remedy) => remedy.renew.some((id) => view.parts[id].dear);
    const dear = (remedy) => byPrice(remedy) || minutesOf(family, remedy) >= book.doubt.dear_minutes;
    const silent = new Set(maybe.filter((h) => h.causes.some((id) => view.modes.get(id).no_sign)).map((h) => h.remedy.id));
    const all = new Map(maybe.map((h) => [h.remedy.id, h.remedy]));
    return [...all.values()].filter((remedy) => !silent.has(remedy.id) && dear(remedy)).map((remedy) => remedy.id).sort();
  }

  function symptomData(book, view, found, symptom) {
    const { unlisted, stop, come_back, cures } = book.doubt;
    const maybe = hypotheses(view, found, symptom);
    const asked = view.checks.filter((c) => !c.only_for.length || c.only_for.includes(symptom.id));
    const checks = asked.map((check) => [check, bearing(check, maybe)]).filter(([, bears]) => bears);
    return {
      title: symptom.title,
      hypotheses: maybe.map((h) => ({ ...h, share: h.share * (1 - unlisted) })),
      checks: checks.map(([, bears]) => bears),
      doubt: { unlisted, stop, come_back, cures, wants_proof: wantsProof(book, view, maybe), ...orderOf(symptom, checks.map(([check]) => check)) },
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
    const symptom = symptomData(book, view, found, view.symptoms.find((s) => s.id === symptomId));
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
