/* A machine brought in for practice: what is wrong with it, and what it shows. Pure.
   A log entry is that of a walk (see walk/journey.js). */
(function () {
  "use strict";
  const { chance, oneOf, byShare } = handwheel.chance;

  /** Of a family's data and a number: {of, number, said, fault}; each complaint as likely, the fault by its share. */
  function bringIn(family, number) {
    const next = chance(`${family.id}/${number}`);
    const of = handwheel.caseOf(family, oneOf(next, Object.keys(family.symptoms).sort()));
    const fault = byShare(next, of.hypotheses);
    const words = of.symptom.said;
    return { of, number, fault, said: words.length ? oneOf(next, words) : of.symptom.title };
  }

  /**
   * What a check shows on this machine, from 0: the truth as often as the check can be trusted, else
   * any other outcome. A trial that cures does cure, and none cures by mistake.
   */
  function shows(machine, check) {
    const truth = check.sees[machine.fault.id];
    const next = chance(`${machine.of.family.id}/${machine.number}/${check.id}`);
    if (check.cured.has(truth) || next() < check.trust[truth]) return truth;
    const others = check.says.map((_, n) => n).filter((n) => n !== truth && !check.cured.has(n));
    return others.length ? oneOf(next, others) : truth;
  }

  function checked(machine, id) {
    return { saw: id, outcome: shows(machine, handwheel.journey.checkOf(machine.of, id)) + 1 };
  }

  function mended(machine, id) {
    return { [id === machine.fault.remedy.id ? "cured" : "tried"]: id };
  }

  /** Minutes of the book's way for this fault, if every check shows the truth and every remedy cures. */
  function plannedMinutes(machine) {
    const { of, fault } = machine;
    for (const log = []; ; ) {
      const { step, spent } = handwheel.journey.stand(of, log);
      if (!step) return spent;
      if (step.kind === "stop") return spent + of.doubt.stop + of.doubt.come_back;
      log.push(step.kind === "check" ? { saw: step.id, outcome: handwheel.journey.checkOf(of, step.id).sees[fault.id] + 1 } : mended(machine, step.id));
    }
  }

  /** Share of the true cause before anything and after each entry of the log. */
  function shareOfTruth(machine, log) {
    const after = (count) => handwheel.journey.sharesAfter(machine.of, log.slice(0, count))[machine.fault.id];
    return Array.from({ length: log.length + 1 }, (_, count) => after(count) || 0);
  }

  handwheel.practice = { bringIn, shows, checked, mended, plannedMinutes, shareOfTruth };
})();
