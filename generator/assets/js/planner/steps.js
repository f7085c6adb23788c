/* The steps of a plan, one small builder for each kind: as generator/analysis/job/steps.py and tray.py. */
(function () {
  "use strict";
  const { UPRIGHT } = handwheel.job;

  const said = (id) => `the ${id.replace(/-/g, " ")}`;
  const capital = (words) => words[0].toUpperCase() + words.slice(1).toLowerCase();

  function step(do_, part, phase, minutes, position, more = {}) {
    return { do: do_, part, phase, minutes, position, tools: [], joints: [], loose: [], tray: [], notes: [], ...more };
  }

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
      tools: h.off_tools, joints: h.joints, loose: h.loose, tray: cellsOf(job, part),
      notes: h.loose.map((piece) => `Watch for ${said(piece)}: it can fall out unseen.`),
    });
  }

  /** How the machine lies once these parts are off. */
  const liesAfter = (family, order) => (order.length ? family.parts[order[order.length - 1]].off_position : UPRIGHT);

  function workSteps(job) {
    const lies = liesAfter(job.family, job.order);
    const own = job.remedies.filter((r) => r.minutes || !(r.renew.length || r.set.length));
    return [
      ...job.renewed.map((part) => step("renew", part, "work", 0, lies)),
      ...own.map((r) => step("remedy", r.id, "work", r.minutes, lies)),
    ];
  }

  function refit(job, part) {
    const h = job.family.parts[part];
    const fresh = job.renewed.includes(part) ? ["Fit the new one."] : [];
    return step("refit", part, "way-out", h.on, h.on_position, {
      tools: h.on_tools, joints: h.joints, loose: h.loose, tray: cellsOf(job, part).reverse(),
      notes: [...fresh, ...h.loose.map((piece) => `${capital(said(piece))} goes back here.`)],
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
    const notes = making.despite.map(([part, later]) => `Made with ${said(part)} off: ${said(later)} follows and needs it off.`);
    return step("set", making.setting, "set", s.minutes, s.position, { tools: s.tools, notes });
  }

  /** The check that proves a setting, after the last setting that shares it. */
  function check(job, making, coming) {
    const s = job.family.settings[making.setting];
    const again = coming.some((later) => job.family.settings[later.setting].proved_by === s.proved_by);
    return s.proved_by && !again ? [step("check", s.proved_by, "prove", 0, s.position)] : [];
  }

  function wayOut(job) {
    const oiled = new Set();
    return job.back.flatMap((done, n) => {
      if (!done.setting) return [refit(job, done), ...oil(job, done, oiled)];
      const coming = job.back.slice(n + 1).filter((later) => later.setting);
      return [setStep(job, done), ...check(job, done, coming)];
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

  function allSteps(job) {
    const sew = step("sew", "", "prove", job.family.proving, UPRIGHT);
    return withTurns([...job.order.map((part) => takeOff(job, part)), ...workSteps(job), ...wayOut(job), sew]);
  }

  Object.assign(handwheel.job, { tray, allSteps, liesAfter });
})();
