/* The order of settings, fitted to what is off while each is made: as generator/analysis/job/settings.py. */
(function () {
  "use strict";
  const { wayIn } = handwheel.machine;
  const { wayOut } = handwheel.job;

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

  /** Pairs where the first needs all parts off that the second, a free one, does, and more; most parts first. */
  function ratherClosed(made, free, { off }) {
    const more = (a, b) => (without(off[b], off[a]).length ? 0 : without(off[a], off[b]).length);
    const pairs = made.flatMap((a) => free.map((b) => [more(a, b), a, b]));
    const sorted = pairs.filter(([count]) => count).sort(([m, a, b], [n, c, d]) => n - m || (a === c ? cmp(b, d) : cmp(a, c)));
    return sorted.map(([, a, b]) => [a, b]);
  }

  const cmp = (a, b) => (a < b ? -1 : Number(a > b));

  function laterOf(family, made, openings) {
    const later = Object.fromEntries(made.map((s) => [s, new Set()]));
    const first = earlier(family, made);
    const free = made.filter((s) => !family.settings[s].parts_on.length);
    made.forEach((setting) => first[setting].forEach((s) => later[s] && later[s].add(setting)));
    const live = (s) => family.live.includes(s);
    const byHandFirst = made.filter((a) => !live(a)).flatMap((a) => made.filter(live).map((b) => [a, b]));
    [...byHandFirst, ...measuredOn(made, openings), ...ratherClosed(made, free, openings)].forEach(([a, b]) => addUnlessRound(later, a, b));
    return later;
  }

  /** Those of the parts that are behind one of `ids`, or are one. */
  const keptOn = (family, ids, parts) => parts.filter((p) => both(wayIn(family, [p]), new Set(ids)).length);

  /** What settings and the checks that prove them need off and on among these parts; off wins. */
  function needsOf(family, openings, later, parts, spared = new Set()) {
    const off = { ...Object.fromEntries(Object.keys(later).map((s) => [`set ${s}`, openings.off[s]])) };
    const on = Object.fromEntries(Object.keys(later).map((s) => [`set ${s}`, family.settings[s].parts_on]));
    handwheel.job.proofsOf(family, later).forEach((_, c) => {
      const { reach, parts_on } = family.checks[c];
      off[`check ${c}`] = new Set(both(wayIn(family, reach), new Set(parts)));
      on[`check ${c}`] = parts_on;
    });
    Object.keys(on).forEach((key) => (on[key] = keptOn(family, on[key].filter((p) => !spared.has(p)), parts).filter((p) => !off[key].has(p))));
    return { off, on, later };
  }

  /** The same with less wanted on, for a machine that cannot give it all. */
  function wishes(family, openings, later, parts) {
    const whole = needsOf(family, openings, later, parts);
    const upsetting = new Set(parts.filter((p) => family.parts[p].disturbs.length));
    const off = Object.fromEntries(Object.entries(whole.off).filter(([key]) => key.startsWith("set ")));
    return [whole, needsOf(family, openings, later, parts, upsetting), { off, on: {}, later }];
  }

  function making(coming, { off, on }, whole, now) {
    const [setting] = coming;
    const rather = new Set([...on[setting], ...whole.on[`set ${setting}`]]);
    const despite = both(now, rather).sort();
    return { setting, despite: despite.map((part) => [part, coming.find((s) => off[s].has(part)) || ""]) };
  }

  /** The tasks with what each setting is made despite of, replayed from the parts off. */
  function replayed(tasks, openings, whole, off) {
    const coming = tasks.filter((task) => task.do === "set").map((task) => task.id);
    const now = new Set(off);
    return tasks.map(({ do: what, id }) => {
      const key = `${what} ${id}`;
      if (what === "check") return { check: id, off: [...whole.on[key]].filter((p) => now.has(p)).sort(), inTheWay: without(whole.off[key], now).sort() };
      if (what === "set") {
        const made = making(coming, openings, whole, now);
        coming.shift();
        return made;
      }
      if (what === "take off") now.add(id);
      else now.delete(id);
      return what === "take off" ? { takeOff: id } : id;
    });
  }

  /** {done, givenUp, extra, turns}, null if what is still on cannot wait: parts to refit (ids) and {takeOff}, settings to make ({setting, despite}) and {check}, in order. */
  function refitsAndMakings(family, settings, partsOff, lies, stillOn) {
    const made = [...settings].sort();
    const openings = openingsOf(family, made, new Set(partsOff));
    const later = laterOf(family, made, openings);
    const off = partsOff.filter((p) => !stillOn.has(p));
    const whole = needsOf(family, openings, later, partsOff);
    for (const [givenUp, wish] of wishes(family, openings, later, partsOff).entries()) {
      const found = wayOut(family, partsOff, off, wish, lies);
      if (found) return { ...found, givenUp, done: replayed(found.tasks, openings, whole, off) };
    }
    return null;
  }

  Object.assign(handwheel.job, { refitsAndMakings, keptOn });
})();
