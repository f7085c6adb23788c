/* Where a walk stands after what was seen, tried and skipped. Pure: a case and a log in, a state out.
   A log entry is {saw: check, outcome} (outcome from 1), {skip: check or remedy},
   {tried: remedy} where the fault is still there, or {cured: remedy}. */
(function () {
  "use strict";
  const { wayIn, work } = handwheel.machine;
  const { rank, nextStep } = handwheel.diagnosis;

  const USED_UP =
    "What fits all that was seen has been put right, and the fault is still there. " +
    "One answer may be wrong, or there are two faults; the shares show what fits best.";

  function remedyOf(of, id) {
    const hypothesis = of.hypotheses.find((h) => h.remedy.id === id);
    return hypothesis && hypothesis.remedy;
  }

  function checkOf(of, id) {
    return of.checks.find((check) => check.id === id);
  }

  /** The policy's node after an entry; undefined where the policy has nothing to say. */
  function followed(node, entry) {
    if (!node) return undefined;
    if (entry.saw && entry.saw === node.check) {
      const branch = node.outcomes.find((o) => o.outcome === entry.outcome);
      return branch && branch.then ? branch.then : undefined;
    }
    return entry.tried && entry.tried === node.remedy && node.else ? node.else : undefined;
  }

  function saw(so, entry) {
    const check = checkOf(so.of, entry.saw);
    const outcome = entry.outcome - 1;
    so.spent += handwheel.takes.check(so.of.family, check, so.open);
    wayIn(so.of.family, check.reach).forEach((part) => so.open.add(part));
    so.answers.push({ check: check.id, outcome, outcomes: check.says.length, sees: check.sees, trust: check.trust });
    so.done.add(check.id);
    if (check.cured.has(outcome)) so.cured = { check: check.id, outcome };
  }

  function tried(so, id, cured) {
    const remedy = remedyOf(so.of, id);
    so.spent += handwheel.takes.remedy(so.of.family, remedy, so.open);
    work(so.of.family, remedy).parts.forEach((part) => so.open.add(part));
    so.done.add(id);
    if (cured) so.cured = { remedy: id };
    else so.failed.add(id);
  }

  /** What the log has done to the machine and to the policy. */
  function replay(of, log) {
    const so = { of, spent: 0, open: new Set(), answers: [], done: new Set(), failed: new Set(), cured: null };
    so.node = of.symptom.policy || undefined;
    for (const entry of log) {
      if (entry.saw) saw(so, entry);
      else if (entry.skip) so.done.add(entry.skip);
      else tried(so, entry.tried || entry.cured, Boolean(entry.cured));
      so.node = followed(so.node, entry);
    }
    return so;
  }

  /** [share of the whole that reaches a node, minutes times share below it]. */
  function shareAndMinutes(node) {
    if (!node) return [0, 0];
    const below = node.check ? node.outcomes.map((o) => shareAndMinutes(o.then)) : [shareAndMinutes(node.else)];
    const share = node.check
      ? node.outcomes.reduce((sum, o) => sum + o.share, 0)
      : node.cured_share + below[0][0];
    return [share, node.minutes * share + below.reduce((sum, [, minutes]) => sum + minutes, 0)];
  }

  function policyStep(node) {
    const [share, minutes] = shareAndMinutes(node);
    return {
      kind: node.check ? "check" : "remedy",
      id: node.check || node.remedy,
      opens: node.opens,
      minutes: node.minutes,
      score: minutes / share,
    };
  }

  /** Weights of the hypotheses that planning goes on with; their priors where doubt was ruled out. */
  function weightsOf(ranking, prior) {
    const weights = Object.fromEntries(ranking.agreeing.map((id) => [id, ranking.shares[id]]));
    if (Object.values(weights).some((w) => w > 0)) return weights;
    return Object.fromEntries(ranking.agreeing.map((id) => [id, prior[id]]));
  }

  /** Ranks what no tried remedy would have cured, and says where nothing fits any more. */
  function ranked(so) {
    const all = handwheel.priorOf(so.of.hypotheses);
    const left = so.of.hypotheses.filter((h) => !so.failed.has(h.remedy.id));
    if (!left.length) return { prior: all, ranking: rank(all, so.answers), empty: true };
    const prior = handwheel.priorOf(left);
    const ranking = rank(prior, so.answers);
    const usedUp = ranking.said && so.failed.size && !rank(all, so.answers).said;
    return { prior, ranking: usedUp ? { ...ranking, said: USED_UP } : ranking, empty: false };
  }

  /**
   * Where the walk stands: {ranking, step, planned, spent, expected, open, cured, empty}.
   * `step` is {kind, id, opens, minutes, score} or null at the end; `planned` says whether it is
   * the policy's; `cured` what ended the job; `empty` that every cause was tried.
   */
  function stand(of, log) {
    const so = replay(of, log);
    const { prior, ranking, empty } = ranked(so);
    const over = so.cured || empty;
    const planned = !over && Boolean(so.node);
    const steps = over || planned ? [] : nextStep(of, weightsOf(ranking, prior), so.open, so.done);
    const step = planned ? policyStep(so.node) : steps[0] || null;
    return {
      ranking, step, planned, empty,
      spent: so.spent,
      expected: step ? step.score : 0,
      open: [...so.open].sort(),
      done: [...so.done],
      cured: so.cured,
    };
  }

  /** What the log has cost and opened, and whether it ended the job: {spent, open, cured}. */
  function soFar(of, log) {
    const so = replay(of, log);
    return { spent: so.spent, open: [...so.open].sort(), cured: so.cured };
  }

  /** The share of each hypothesis after the log. */
  function sharesAfter(of, log) {
    return ranked(replay(of, log)).ranking.shares;
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
