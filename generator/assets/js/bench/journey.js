/* Where a walk stands after what was seen, tried and skipped. Pure: a case and a log in, a state out.
   A log entry is {saw: check, outcome} (outcome from 1), {skip: check or remedy},
   {tried: remedy} where the fault is still there, or {cured: remedy}. */
(function () {
  "use strict";
  const { wayIn, work, shut } = handwheel.machine;
  const { sum, start, seen, notCured, passedOver, unproved } = handwheel.doubt;
  const { rank, nextSteps, outlook } = handwheel.diagnosis;

  const DIGITS = 9; // of a share as it is held against another, so that rounding decides nothing; as in Python
  const UNLIKELY = 0.05; // share of the jobs at a check below which what it shows is to be looked at again
  const LIKELY = 0.05; // share from which an unproved remedy is named where the work stops

  function remedyOf(of, id) {
    const hypothesis = of.hypotheses.find((h) => h.remedy.id === id);
    return hypothesis && hypothesis.remedy;
  }

  function checkOf(of, id) {
    return of.checks.find((check) => check.id === id);
  }

  /** The written order's step after an entry; undefined where it has nothing to say. */
  function followed(step, entry) {
    if (!step) return undefined;
    if (entry.saw) return entry.saw === step.id ? step.then[entry.outcome] : undefined;
    return entry.tried && entry.tried === step.id ? step.then.else : undefined;
  }

  /** An outcome that few jobs show here, to be looked at again: {check, outcome}, from 0; else null. */
  function seldom({ of, now }, check, outcome) {
    const share = sum(seen(of, now, check, outcome).weights) / sum(now.weights);
    return Number(share.toFixed(DIGITS)) < UNLIKELY && !check.cured.has(outcome) ? { check, outcome } : null;
  }

  function saw(so, entry) {
    const check = checkOf(so.of, entry.saw);
    const outcome = entry.outcome - 1;
    so.spent += handwheel.takes.check(so.of.family, check, so.now.open);
    so.answers.push({ check, outcome });
    so.seldom = so.done.has(check.id) ? null : seldom(so, check, outcome);
    so.done.add(check.id);
    so.now = seen(so.of, so.now, check, outcome);
    if (check.cured.has(outcome)) so.cured = { check: check.id, outcome };
  }

  function tried(so, id, cured) {
    const remedy = remedyOf(so.of, id);
    so.spent += handwheel.takes.remedy(so.of.family, remedy, so.now.open);
    so.done.add(id);
    so.unproved += Number(unproved(so.of, so.now, id));
    if (!cured) so.now = notCured(so.of, so.now, remedy);
    else so.cured = { remedy: id };
  }

  /** What the log has done to the machine, to what is believed of it and to the written order. */
  function replay(of, log) {
    const so = { of, now: start(of), spent: 0, unproved: 0, answers: [], done: new Set(), cured: null };
    so.step = of.symptom.policy || undefined;
    for (const entry of log) {
      so.seldom = null;
      if (entry.saw) saw(so, entry);
      else if (entry.skip) {
        so.done.add(entry.skip);
        so.now = passedOver(so.now, entry.skip);
      } else tried(so, entry.tried || entry.cured, Boolean(entry.cured));
      so.step = followed(so.step, entry);
    }
    return so;
  }

  /** The written order's step, as the rule's steps are told; `left` minutes are still to expect. */
  function plannedStep({ of, now, step }) {
    const told = { kind: step.does, id: step.id, left: step.left };
    if (step.does === "stop") return { ...told, opens: [], minutes: of.doubt.stop };
    const check = step.does === "check";
    const given = check ? checkOf(of, step.id) : remedyOf(of, step.id);
    const opens = shut(check ? wayIn(of.family, given.reach) : work(of.family, given).parts, now.open);
    return { ...told, opens, minutes: handwheel.takes[step.does](of.family, given, now.open) };
  }

  /** Remedies that are still likely and that nothing has proved, where the work stops. */
  function wanting(of, now) {
    const share = (id) => sum(of.causes.map((h, n) => (h.remedy && h.remedy.id === id ? now.weights[n] : 0)));
    const open = of.doubt.wants_proof.filter((id) => unproved(of, now, id) && !now.tried.has(id));
    return open.filter((id) => share(id) >= LIKELY * sum(now.weights));
  }

  function nextOf(so) {
    if (so.cured) return null;
    if (so.step) return plannedStep(so);
    const [step] = nextSteps(so.of, so.now);
    return step ? { ...step, left: outlook(so.of, so.now) } : null;
  }

  /**
   * Where the walk stands: {ranking, step, planned, spent, expected, open, cured, unproved}.
   * `step` is {kind, id, opens, minutes, left}, or null where the job is done or nothing is possible;
   * `planned` says whether it is the written order's; `cured` what ended the job; `unproved` the
   * remedies that are likely but for their sign, where the step is to stop and think; `seldom` what was
   * seen last, where it is to be looked at again: {check, outcome}, from 0.
   */
  function stand(of, log) {
    const so = replay(of, log);
    const step = nextOf(so);
    return {
      ranking: rank(of, so.now, so.answers),
      step,
      planned: Boolean(step && so.step),
      spent: so.spent,
      expected: step ? step.left : 0,
      open: [...so.now.open].sort(),
      done: [...so.done],
      cured: so.cured,
      seldom: so.seldom,
      unproved: step && step.kind === "stop" ? wanting(of, so.now) : [],
    };
  }

  /**
   * What the log has cost and opened, and whether it ended the job: {spent, open, cured, unproved, now}.
   * `unproved` counts dear remedies that were done before their sign was seen, `now` is what is believed.
   */
  function soFar(of, log) {
    const so = replay(of, log);
    return { spent: so.spent, open: [...so.now.open].sort(), cured: so.cured, unproved: so.unproved, now: so.now };
  }

  /** The share of each cause after the log. */
  function sharesAfter(of, log) {
    const so = replay(of, log);
    return rank(of, so.now, so.answers).shares;
  }

  /** The entries up to the first that this case does not know: data may be newer than a kept log. */
  function known(of, log) {
    const fits = (entry) => {
      if (entry.saw) return Boolean(checkOf(of, entry.saw) && checkOf(of, entry.saw).says[entry.outcome - 1]);
      if (entry.skip) return Boolean(checkOf(of, entry.skip) || remedyOf(of, entry.skip));
      return Boolean(remedyOf(of, entry.tried || entry.cured));
    };
    const end = log.findIndex((entry) => !fits(entry));
    return end < 0 ? log : log.slice(0, end);
  }

  handwheel.journey = { stand, soFar, sharesAfter, known, checkOf, remedyOf };
})();
