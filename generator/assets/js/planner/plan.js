/* One visit to the bench for any remedies: as generator/analysis/job/plan.py, while_open.py and money.py. */
(function () {
  "use strict";
  const { work } = handwheel.machine;
  const { leastWays, tray, allSteps } = handwheel.job;

  const HAIR = 1e-9;
  const NO_WAIT = { minutes: 0, why: "" };
  const exact = (minutes) => Number(minutes.toFixed(4)); // sheds binary dust only
  const union = (lists) => [...new Set(lists.flat())].sort();

  function distinct(remedies) {
    const told = remedies.map(({ id, renew, set, reach, minutes, clean, wait }) => [JSON.stringify([id, renew, set, reach, minutes, clean, wait]), { id, renew, set, reach, minutes, clean, wait }]);
    return [...new Map(told).values()];
  }

  function merged(remedies) {
    const all = (field) => remedies.flatMap((remedy) => remedy[field]);
    return { renew: all("renew"), set: all("set"), reach: all("reach"), clean: all("clean"), minutes: remedies.reduce((sum, r) => sum + r.minutes, 0), wait: NO_WAIT };
  }

  /** The remedy that renews a part and those that are always renewed with it. */
  function renewing(family, part) {
    const renew = [...handwheel.graph.reached([part], (id) => family.parts[id].renew_with)].sort();
    return { id: renew.map((id) => `renew:${id}`).join("+"), renew, set: [], reach: [], minutes: 0, clean: [], wait: NO_WAIT };
  }

  const setting = (made) => ({ id: `set:${made}`, renew: [], set: [made], reach: [], minutes: 0, clean: [], wait: NO_WAIT });

  const minutesOf = (family, { parts, settings, read }) =>
    handwheel.takes.opening(family, parts, new Set()) + handwheel.takes.settings(family, settings, read);

  /** Wearing parts within reach that the remedies do not renew, most minutes saved first. */
  function whileOpen(family, whole, now) {
    const near = (id) => family.parts[id].wears && family.parts[id].behind.every((b) => now.parts.has(b));
    const found = Object.keys(family.parts).filter((id) => near(id) && !whole.renew.includes(id)).map((part) => weighed(family, whole, now, handwheel.takes.tested(family, whole), part));
    const saved = (w) => Number((w.later_minutes - w.extra_minutes).toFixed(6));
    return found.sort((a, b) => saved(b) - saved(a) || (a.part < b.part ? -1 : 1));
  }

  function weighed(family, whole, now, tested, part) {
    const alone = { renew: [part], set: [], reach: [], minutes: 0, clean: [], wait: NO_WAIT };
    const tests = handwheel.takes.tests(family, alone);
    const both = work(family, { ...whole, renew: [...whole.renew, part] });
    const extra = minutesOf(family, both) - minutesOf(family, now) + (tested ? 0 : tests);
    const later = minutesOf(family, work(family, alone)) + tests + family.proving;
    return { part, extra_minutes: exact(extra), later_minutes: exact(later) };
  }

  /** The plan for remedies {id, renew, set, reach, minutes}, with the keys of `plan --json`. */
  function plan(family, asked) {
    const remedies = distinct(asked);
    const whole = merged(remedies);
    const now = work(family, whole);
    const { way, back: { done: back } } = leastWays(family, whole, now);
    const parts = union(whole.renew);
    const later = back.filter((done) => done.takeOff).map((done) => done.takeOff);
    const cells = tray(family, [...new Set([...way.parts, ...later])]);
    const steps = allSteps({ family, remedies, order: way.parts, back, renewed: parts, tray: cells, read: now.read });
    return {
      steps,
      remedies,
      settings: back.filter((done) => done.setting).map((making) => making.setting),
      while_open: whileOpen(family, whole, now),
      minutes: exact(steps.reduce((sum, step) => sum + step.minutes, 0)),
      waiting: exact(steps.reduce((sum, step) => sum + step.wait, 0)),
      tools: union(steps.map((step) => step.tools)),
      parts,
      tray: cells,
      changes: way.changes,
    };
  }

  const down = (amount, unit = 1) => Math.floor(amount / unit + HAIR) * unit;
  const up = (amount, unit = 1) => Math.ceil(amount / unit - HAIR) * unit;
  const outward = (/** @type {number[]} */ [low, high], unit = undefined) => [down(low, unit), up(high, unit)];

  /** What the shop's own jobs with the one remedy of a plan took, or null. */
  function recorded(family, { remedies }) {
    const own = remedies.length === 1 && family.remedies[remedies[0].id];
    return own ? own.recorded : null;
  }

  /** The range of money that a plan comes to; null while the shop gives no rate for labour. */
  function quote(family, planned) {
    const { shop } = family;
    if (!shop.labour_rate) return null;
    const took = recorded(family, planned);
    const whole = took ? took.minutes : planned.minutes;
    const ends = (minutes) => [minutes, minutes * (1 + shop.spread)];
    const labour = outward(ends(Math.max(whole - planned.waiting, 0)).map((end) => (end * shop.labour_rate) / 60));
    const priced = planned.parts.map((part) => family.parts[part].price).filter(Boolean);
    const sum = (end) => priced.reduce((all, price) => all + price[end], 0) * (1 + shop.margin);
    const parts = outward([sum(0), sum(1)]);
    return {
      minutes: outward(ends(whole), 5),
      labour,
      parts,
      total: outward([labour[0] + parts[0], labour[1] + parts[1]], shop.rounding),
      unpriced: planned.parts.filter((part) => !family.parts[part].price),
    };
  }

  Object.assign(handwheel.job, { plan, quote, recorded, renewing, setting });
})();
