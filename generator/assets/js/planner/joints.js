/* Joints that a part is fitted with only nipped: as generator/analysis/job/joints.py and before_power.py. */
(function () {
  "use strict";
  const said = (id) => `the ${id.replace(/-/g, " ")}`;

  /** Whether the machine runs under power in a step. */
  const isLive = (family, step) => step.do === "sew" || (["set", "check"].includes(step.do) && family.live.includes(step.part));

  /** The later step that does a joint up, if it comes before power; -1: none. */
  function doneUp(family, steps, n, joint) {
    const works = (step) => step.do === "set" && !step.read && family.settings[step.part].joints.includes(joint);
    const later = steps.findIndex((step, m) => m > n && (works(step) || isLive(family, step)));
    return later >= 0 && !isLive(family, steps[later]) ? later : -1;
  }

  /** The joints that a step may leave nipped, by the later step that does them up. */
  function bySetting(family, steps, n) {
    const found = new Map();
    const nips = steps[n].do === "refit" ? family.parts[steps[n].part].nips : [];
    nips.forEach((joint) => {
      const at = doneUp(family, steps, n, joint);
      found.set(at, [...(found.get(at) || []), joint]);
    });
    return found;
  }

  function withJoints(family, steps) {
    const told = steps.map((step) => ({ ...step, notes: [...step.notes] }));
    steps.forEach((_, n) => bySetting(family, steps, n).forEach((joints, at) => {
      const named = joints.map(said).join(" and ");
      if (at < 0) {
        told[n].notes.push(`Do up tight here: ${named}; nothing in this job sets ${joints.length === 1 ? "it" : "them"}.`);
        return;
      }
      told[n].notes.push(`Left nipped: ${named}, done up at step ${at + 1}.`);
      told[at].notes.push(`Do up tight at the end: ${named}, left nipped at step ${n + 1}.`);
    }));
    return told;
  }

  Object.assign(handwheel.job, { isLive, withJoints });
})();
