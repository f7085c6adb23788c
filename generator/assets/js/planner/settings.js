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

  const before = (direct, start) => handwheel.graph.reached(direct[start], (setting) => direct[setting]);

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

  /** Pairs where the first needs all parts off that the second does, and more; most parts first. */
  function ratherClosed(made, { off }) {
    const more = (a, b) => (without(off[b], off[a]).length ? 0 : without(off[a], off[b]).length);
    const pairs = made.flatMap((a) => made.map((b) => [more(a, b), a, b]));
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

  /** How many settings of the whole machine come before one by `after`. */
  function rankOf(family, setting) {
    return before(Object.fromEntries(Object.entries(family.settings).map(([id, s]) => [id, s.after])), setting).size;
  }

  /** Whether no setting is read against a part: it neither wears, nor is oiled, nor upsets anything. */
  const isCover = (part) => !part.wears && !part.oil.length && !part.disturbs.length;

  /** Parts to refit and settings to make by number, the preferred first, the proving sew last. */
  function tasksOf(family, order, later) {
    const rank = Object.fromEntries(Object.keys(later).map((s) => [s, rankOf(family, s)]));
    const settings = Object.keys(later).sort((a, b) => rank[a] - rank[b] || cmp(a, b));
    const refits = [...order].reverse().map((id) => ({ do: "refit", id, position: family.parts[id].on_position }));
    const made = settings.map((id) => ({ do: "set", id, position: family.settings[id].position }));
    return [...refits, ...made, { do: "sew", id: "", position: UPRIGHT }].map((task, n) => ({ ...task, n, bit: 1n << BigInt(n), first: 0n, off: 0n }));
  }

  /** What each task waits for, by bits: as _Bench in generator/analysis/job/way_out.py. */
  function benchOf(family, order, off, later) {
    const tasks = tasksOf(family, order, later);
    const bits = (of) => tasks.filter(of).reduce((all, task) => all | task.bit, 0n);
    const first = (one, other) => {
      if (other.do === "sew") return one.do !== "sew";
      if (one.do === "set") return (other.do === "refit" ? off : later)[one.id].has(other.id);
      return one.do === "refit" && other.do === "refit" && family.parts[one.id].behind.includes(other.id);
    };
    tasks.forEach((task) => {
      task.first = bits((one) => first(one, task));
      task.off = task.do === "set" ? bits((t) => t.do === "refit" && off[task.id].has(t.id)) : 0n;
    });
    return { tasks, measuredOn: bits((t) => t.do === "refit" && !isCover(family.parts[t.id])) };
  }

  /** Tasks that can be done next: a setting waits for all parts but covers that none needs off any more. */
  function readyOf({ tasks, measuredOn: read }, done) {
    const left = tasks.filter((task) => !(task.bit & done));
    const idle = read & ~done & ~left.reduce((all, task) => all | task.off, 0n);
    return left.filter((task) => !(task.first & ~done) && (task.do === "refit" || !idle));
  }

  /** All that can be done as the machine lies, the preferred first; an order is a string of task numbers. */
  function run(bench, { bits, order }, lies) {
    let now = { bits, order, lies };
    for (;;) {
      const then = readyOf(bench, now.bits).find((task) => task.position === lies);
      if (!then) return now;
      now = { bits: now.bits | then.bit, order: now.order + String.fromCharCode(then.n + 1), lies };
    }
  }

  function turnedOnceMore(bench, ways) {
    const further = new Map();
    for (const way of ways) {
      const positions = new Set(readyOf(bench, way.bits).map((task) => task.position));
      [...positions].filter((position) => position !== way.lies).forEach((position) => {
        const then = run(bench, way, position);
        const key = `${then.bits}|${position}`;
        const there = further.get(key);
        if (!there || then.order < there.order) further.set(key, then);
      });
    }
    return [...further.values()];
  }

  /** Refits and settings with the fewest turns of the machine: as generator/analysis/job/way_out.py. */
  function wayOut(family, order, off, later, lies) {
    const bench = benchOf(family, order, off, later);
    const whole = (way) => way.order.length === bench.tasks.length;
    let ways = [run(bench, { bits: 0n, order: "" }, lies)];
    while (!ways.some(whole)) ways = turnedOnceMore(bench, ways);
    const best = ways.filter(whole).reduce((a, b) => (b.order < a.order ? b : a));
    return [...best.order].map((sign) => bench.tasks[sign.charCodeAt(0) - 1]).slice(0, -1);
  }

  function making(n, order, { off, on }) {
    const coming = order.slice(n);
    const held = new Set(coming.flatMap((s) => [...off[s]]));
    const despite = both(held, on[order[n]]).sort();
    return { setting: order[n], held, despite: despite.map((part) => [part, coming.find((s) => off[s].has(part))]) };
  }

  /** Parts to refit (ids) and settings to make ({setting, held, despite: [part, later setting]}), in order. */
  function refitsAndMakings(family, settings, partsOff, lies) {
    const made = [...settings].sort();
    const openings = openingsOf(family, made, new Set(partsOff));
    const tasks = wayOut(family, partsOff, openings.off, laterOf(family, made, openings), lies);
    const order = tasks.filter((task) => task.do === "set").map((task) => task.id);
    return tasks.map((task) => (task.do === "refit" ? task.id : making(order.indexOf(task.id), order, openings)));
  }

  handwheel.job.refitsAndMakings = refitsAndMakings;
})();
