/* The steps of a plan, one small builder for each kind: as generator/analysis/job/steps.py and tray.py. */
(function () {
  "use strict";
  const { UPRIGHT } = handwheel.job;
  const AGAIN = "Once more: it was on for what came before and is in the way of what follows.";

  const said = (id) => `the ${id.replace(/-/g, " ")}`;

  function step(do_, part, phase, minutes, position, more = {}) {
    return { do: do_, part, phase, minutes, position, tools: [], joints: [], loose: [], tray: [], notes: [], read: false, wait: 0, ...more };
  }

  const waits = (wait) => (wait.minutes ? [`Wait ${wait.minutes} min: ${wait.why}.`] : []);

  /** A numbered cell for each joint's fasteners and each loose piece, in the order of removal. */
  function tray(family, order) {
    const undone = new Set();
    const cells = [];
    for (const part of order) {
      const joints = [...new Set(family.parts[part].joints)].filter((joint) => !undone.has(joint));
      joints.forEach((joint) => undone.add(joint));
      const add = (holds) => cells.push({ cell: cells.length + 1, part, holds, joint: joints.includes(holds) });
      [...joints, ...family.parts[part].loose].forEach(add);
    }
    return cells;
  }

  function cellsOf(job, part) {
    return job.tray.filter((cell) => cell.part === part).map((cell) => cell.cell);
  }

  function takeOff(job, part) {
    const h = job.family.parts[part];
    return step("take off", part, "way-in", h.off, h.off_position, {
      wait: h.off_wait.minutes, tools: h.off_tools, joints: h.joints, loose: h.loose, tray: cellsOf(job, part),
      notes: [
        ...h.slackens.map((joint) => `Slacken ${said(joint)} as well.`),
        ...h.loose.map((piece) => `Watch for ${said(piece)}, which can fall out unseen.`),
        ...waits(h.off_wait),
      ],
    });
  }

  function workSteps(job) {
    const own = job.remedies.filter((r) => r.minutes || !(r.renew.length || r.set.length));
    return [
      ...job.renewed.map((part) => step("renew", part, "work", 0, "")),
      ...own.map((r) => step("remedy", r.id, "work", r.minutes, "", { wait: r.wait.minutes, notes: waits(r.wait) })),
    ];
  }

  function refit(job, part) {
    const h = job.family.parts[part];
    const fresh = job.renewed.includes(part) ? ["Fit the new one."] : [];
    return step("refit", part, "way-out", h.on, h.on_position, {
      wait: h.on_wait.minutes, tools: h.on_tools, joints: h.joints, loose: h.loose, tray: cellsOf(job, part).reverse(),
      notes: [
        ...fresh,
        ...h.loose.map((piece) => `Put back ${said(piece)}.`),
        ...h.slackens.filter((joint) => !h.nips.includes(joint)).map((joint) => `Do up ${said(joint)} again.`),
        ...waits(h.on_wait),
      ],
    });
  }

  /** Each oil point once, when the innermost part that touched it is on and nothing hides it yet. */
  function oil(job, part, oiled) {
    const h = job.family.parts[part];
    const points = h.oil.filter((point) => !oiled.has(point) && oiled.add(point));
    return points.map((point) => step("oil", point, "oil", 0, h.on_position));
  }

  function setStep(job, making) {
    const s = job.family.settings[making.setting];
    const notes = making.despite.map(([part, later]) => `Made with ${said(part)} off${later ? `: ${said(later)} follows and needs it off` : ""}.`);
    const read = job.read.has(making.setting);
    const minutes = Number(handwheel.takes.setting(job.family, making.setting, read).toFixed(4)); // sheds binary dust only
    return step("set", making.setting, "set", minutes, s.position, { tools: s.tools, notes, read });
  }

  function wayOut(job) {
    const oiled = new Set();
    const taken = new Set(job.order);
    return job.back.flatMap((done) => onTheWayOut(job, done, taken, oiled));
  }

  function prove(job, { check, off, inTheWay }) {
    const notes = [
      ...off.map((part) => `Done with ${said(part)} off: no order of this job has it on.`),
      ...inTheWay.map((part) => `Done with ${said(part)} on: no order of this job has it off.`),
    ];
    return step("check", check, "prove", 0, job.family.checks[check].position, { notes });
  }

  function onTheWayOut(job, done, taken, oiled) {
    if (done.setting) return [setStep(job, done)];
    if (done.check) return [prove(job, done)];
    if (!done.takeOff) return [refit(job, done), ...oil(job, done, oiled)];
    const off = { ...takeOff(job, done.takeOff), phase: "way-out" };
    if (taken.has(done.takeOff)) off.notes = [AGAIN, ...off.notes];
    taken.add(done.takeOff);
    return [off];
  }

  /** What is done whichever way the machine lies is done as the step before left it. */
  function asItLies(steps) {
    let lies = UPRIGHT;
    return steps.map((one) => {
      lies = one.position || lies;
      return { ...one, position: lies };
    });
  }

  /** Says first when the machine is turned over: that is where heads fall and fingers are caught. */
  function withTurns(steps) {
    let lies = UPRIGHT;
    return steps.map((one) => {
      const turned = one.position !== lies;
      lies = one.position;
      const words = `First turn the machine ${one.position.replace(/-/g, " ")}.`;
      return turned ? { ...one, turned, notes: [words, ...one.notes] } : one;
    });
  }

  /** Earth and insulation before the first step under power, where a mains part was renewed or opened. */
  function withTests(job, steps) {
    if (!job.remedies.some((remedy) => handwheel.takes.tested(job.family, remedy))) return steps;
    const first = steps.findIndex((one) => handwheel.job.isLive(job.family, one));
    const test = step("test", "", "prove", job.family.mains_test, steps[first].position);
    return [...steps.slice(0, first), test, ...steps.slice(first)];
  }

  function allSteps(job) {
    const sew = step("sew", "", "prove", job.family.proving, UPRIGHT);
    const steps = [...job.order.map((part) => takeOff(job, part)), ...workSteps(job), ...wayOut(job), sew];
    return handwheel.job.withJoints(job.family, withTurns(withTests(job, asItLies(steps))));
  }

  Object.assign(handwheel.job, { tray, allSteps });
})();
