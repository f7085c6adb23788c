/* The order of settings, fitted to what is off while each is made: as generator/analysis/job/settings.py. */
(function () {
  "use strict";
  const { wayIn } = handwheel.machine;
  const { UPRIGHT } = handwheel.job;

  const both = (a, b) => [...a].filter((x) => b.has(x));
  const without = (a, b) => [...a].filter((x) => !b.has(x));

  /** What each setting needs off, and the parts off that upset it but for those that its own reach has off. */
  function openingsOf(family, made, partsOff) {
    const off = Object.fromEntries(made.map((s) => [s, wayIn(family, family.settings[s].reach)]));
    const upsetBy = (s) => [...partsOff].filter((part) => family.parts[part].disturbs.includes(s));
    const on = Object.fromEntries(made.map((s) => [s, new Set(upsetBy(s).filter((part) => !off[s].has(part)))]));
    return { off, on };
  }

  /** For each setting made, all settings that the records want before it. */
  function earlier(family, made) {
    const direct = Object.fromEntries(Object.entries(family.settings).map(([id, s]) => [id, new Set(s.after)]));
    made.forEach((disturber) => family.settings[disturber].disturbs.forEach((s) => direct[s].add(disturber)));
    return Object.fromEntries(made.map((s) => [s, before(direct, s)]));
  }

  function before(direct, start) {
    const found = new Set();
    const stack = [...direct[start]];
    while (stack.length) {
      const setting = stack.pop();
      if (found.has(setting)) continue;
      found.add(setting);
      stack.push(...direct[setting]);
    }
    return found;
  }

  function addUnlessRound(later, first, then) {
    if (first === then || later[then].has(first) || later[first].has(then)) return;
    const follow = [then, ...later[then]];
    for (const [setting, after] of Object.entries(later)) {
      if (setting === first || after.has(first)) follow.forEach((s) => after.add(s));
    }
  }

  function measuredOn(made, { off, on }) {
    return made.flatMap((first) => made.filter((then) => both(off[first], on[then]).length).map((then) => [first, then]));
  }

  /** Pairs where the first needs parts off that the second does not; most parts first. */
  function ratherClosed(made, { off }) {
    const pairs = made.flatMap((a) => made.map((b) => [without(off[a], off[b]).length, a, b]));
    const sorted = pairs.filter(([count]) => count).sort(([m, a, b], [n, c, d]) => n - m || (a === c ? cmp(b, d) : cmp(a, c)));
    return sorted.map(([, a, b]) => [a, b]);
  }

  const cmp = (a, b) => (a < b ? -1 : Number(a > b));

  function laterOf(family, made, openings) {
    const later = Object.fromEntries(made.map((s) => [s, new Set()]));
    const first = earlier(family, made);
    made.forEach((setting) => first[setting].forEach((s) => later[s] && later[s].add(setting)));
    [...measuredOn(made, openings), ...ratherClosed(made, openings)].forEach(([a, b]) => addUnlessRound(later, a, b));
    return later;
  }

  function orderOf(family, made, later) {
    const order = [];
    let position = UPRIGHT;
    while (order.length < made.length) {
      const left = made.filter((s) => !order.includes(s));
      const waiting = new Set(left.flatMap((s) => [...later[s]]));
      const ready = left.filter((s) => !waiting.has(s));
      const chosen = ready.find((s) => family.settings[s].position === position) || ready[0];
      order.push(chosen);
      position = family.settings[chosen].position;
    }
    return order;
  }

  function making(n, order, { off, on }) {
    const coming = order.slice(n);
    const held = new Set(coming.flatMap((s) => [...off[s]]));
    const despite = both(held, on[order[n]]).sort();
    return { setting: order[n], held, despite: despite.map((part) => [part, coming.find((s) => off[s].has(part))]) };
  }

  /** The settings in the order they are made: {setting, held: parts off, despite: [part, later setting]}. */
  function makings(family, settings, partsOff) {
    const made = [...settings].sort();
    const openings = openingsOf(family, made, partsOff);
    const order = orderOf(family, made, laterOf(family, made, openings));
    return order.map((_, n) => making(n, order, openings));
  }

  handwheel.job.makings = makings;
})();
