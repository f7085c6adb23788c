/* A plan's steps with the words of their records: as generator/wording/jobs/ tells a job sheet. */
(function () {
  "use strict";

  const SIGNS = "Signed by a qualified person";

  const SAID = {
    "take off": (family, step) => family.parts[step.part].take_off,
    refit: (family, step) => family.parts[step.part].refit,
    renew: (family, step) => {
      const { title, href, cautions } = family.parts[step.part];
      return { title, href, cautions, do: "Renew" };
    },
    set: (family, step) => {
      const { told, measure, read, read_minutes, minutes } = family.settings[step.part];
      return { ...told, measure, ...(step.read ? { do: "Read, then set", read, read_minutes, set_minutes: minutes } : {}) };
    },
    check: (family, step) => family.checks[step.part],
    oil: (family, step) => family.oil[step.part],
    test: (family) => ({ ...family.test, sign: SIGNS }),
    remedy: (family, step) => ({ title: family.remedies[step.part].says }),
    sew: () => ({ title: "", do: "Sew" }),
  };

  /** What to see to before the machine leaves how it lies, if the part put back just before does not say it. */
  function leaving(family, before) {
    const said = before && before.do === "refit" && !SAID.refit(family, before).do;
    return before && !said ? family.leaving[before.position] || "" : "";
  }

  function turnOf(family, step, before) {
    return step.turned ? `${leaving(family, before)} ${family.turns[step.position]} ${family.lift}`.trimStart() : "";
  }

  function one(family, step, number, before) {
    const words = SAID[step.do](family, step);
    const own = step.turned ? step.notes.slice(1) : step.notes;
    return {
      do: "", href: "", how: "", sign: "", cautions: [], technique: "", joints: [], power: "", target: "", measure: "", expect: "",
      ...words,
      number,
      step,
      turn: turnOf(family, step, before),
      notes: [...own, ...(words.notes || [])],
    };
  }

  /** What the chart says of a joint stands where it is first met; later steps name that step. */
  function jointsOnce(told) {
    const first = new Map();
    return told.map((step) => {
      const met = new Set(step.joints.map((j) => j.title).filter((title) => first.has(title)));
      step.joints.forEach((j) => first.has(j.title) || first.set(j.title, step.number));
      const joints = step.joints.map((j) => (met.has(j.title) ? { ...j, facts: [`as at ${first.get(j.title)}`] } : j));
      return { ...step, joints };
    });
  }

  /** Each caution in full where it is first needed, by name after that; a live machine ends what was in force. */
  function cautionsOnce(told, throughout) {
    const inForce = new Set(throughout);
    const read = new Set(throughout);
    return told.map((step) => {
      const needed = [...new Set(step.cautions)].filter((c) => !inForce.has(c));
      const fresh = needed.filter((c) => !read.has(c));
      const again = needed.filter((c) => read.has(c));
      fresh.forEach((c) => read.add(c));
      if (step.power === "on") inForce.clear();
      return { ...step, cautions: fresh, again };
    });
  }

  /** Failure modes that the remedies put right. */
  function putsRight(family, plan) {
    const done = new Set(plan.remedies.map((remedy) => remedy.id));
    return Object.keys(family.modes).filter((mode) => done.has(family.modes[mode].remedy)).sort();
  }

  /** Cautions for the whole job: the machine's, those of the mechanisms opened, those of the failure modes. */
  function throughout(family, plan) {
    const touched = plan.steps.filter((s) => s.do === "take off" || s.do === "set");
    const homes = touched.map((s) => (s.do === "set" ? family.settings : family.parts)[s.part].home);
    const modes = putsRight(family, plan).map((mode) => family.modes[mode]);
    const ways = modes.flatMap((m) => [...m.cautions, ...((family.techniques[m.technique] || {}).cautions || [])]);
    return [...new Set([...family.always, ...[...new Set(homes)].flatMap((home) => family.homes[home].cautions), ...ways])];
  }

  /** Joints that any step undoes, slackens, loosens or does up, by id. */
  function jointsWorked(family, plan) {
    const moved = plan.steps.filter((s) => s.do === "take off").flatMap((s) => [...s.joints, ...family.parts[s.part].slackens]);
    const set = plan.steps.filter((s) => s.do === "set").flatMap((s) => family.settings[s.part].joints);
    return [...new Set([...moved, ...set])].sort();
  }

  /** Tools of the steps, of the remedies, of the checks that prove the settings, and the keys of the joints, by id. */
  function tools(family, plan) {
    const checks = plan.steps.filter((s) => s.do === "check").flatMap((s) => family.checks[s.part].tools);
    const remedies = putsRight(family, plan).flatMap((mode) => family.modes[mode].tools);
    const found = new Set([...plan.tools, ...checks, ...remedies]);
    jointsWorked(family, plan).flatMap((joint) => family.keys[joint] || []).forEach((group) => {
      if (!group.some((tool) => found.has(tool))) found.add(group[0]);
    });
    return [...found].sort();
  }

  function told(family, plan) {
    const steps = plan.steps.map((step, n) => one(family, step, n + 1, plan.steps[n - 1]));
    steps[steps.length - 1].cautions = family.proving_cautions;
    return jointsOnce(cautionsOnce(steps, throughout(family, plan)));
  }

  Object.assign(handwheel.job, { told, throughout, putsRight, tools });
})();
