/* The way out as a least path: as generator/analysis/job/path.py. Parts and jobs are bits of a BigInt each;
   an order is a string of task numbers, so that strings compare as orders. */
(function () {
  "use strict";

  const BUDGET = 20000; // states looked at before the search gives up
  const union = (bits) => bits.reduce((all, some) => all | some, 0n);
  const keyOf = (state) => `${state.done.toString(36)}|${state.off.toString(36)}|${state.lies}`;
  const better = (a, b) => a.extra - b.extra || a.turns - b.turns || (a.order < b.order ? -1 : Number(a.order > b.order));

  /** No position: as the machine lies. */
  const liesRight = (position, state) => !position || position === state.lies;

  /** Parts that a job still to come needs off. */
  function neededOff(bench, done) {
    let found = 0n;
    for (const job of bench.jobs) if (!(job.bit & done)) found |= job.off;
    return found;
  }

  const then = (state, number, changes) => ({ ...state, ...changes, order: state.order + String.fromCharCode(number + 1) });

  function refitted(bench, state, n) {
    const part = bench.parts[n];
    const again = part.bit & neededOff(bench, state.done) ? part.cost : 0;
    return then(state, n, { off: state.off & ~part.bit, extra: state.extra + again });
  }

  const takenOff = (bench, state, n) => then(state, bench.parts.length + bench.jobs.length + n, { off: state.off | bench.parts[n].bit });
  const carriedOut = (bench, state, n) => then(state, bench.parts.length + n, { done: state.done | bench.jobs[n].bit });

  /** Whether all is on that a setting is read against, and nothing that is yet to come off upsets it. */
  function settles(bench, job, state, needed) {
    const [idle, coming] = [state.off & ~needed, needed & ~state.off];
    return !bench.parts.some((part) => (part.bit & (idle | coming) && part.upsets & job.bit) || (part.bit & idle && part.readAgainst && job.namesNone));
  }

  function ready(bench, job, state, needed) {
    if (job.bit & state.done || job.first & ~state.done || job.off & ~state.off || job.on & state.off) return false;
    if (!liesRight(job.position, state)) return false;
    return !job.isSetting || settles(bench, job, state, needed);
  }

  /** Whether a part that upsets a setting may still go on and come off again: it may be better made later. */
  function atRisk(bench, job, state, needed) {
    const wanted = union(bench.jobs.filter((other) => !(other.bit & state.done)).map((other) => other.on));
    return bench.parts.some((part) => part.bit & needed & wanted && part.upsets & job.bit);
  }

  function atNoCost(bench, state) {
    const needed = neededOff(bench, state.done);
    let first = -1;
    for (let n = 0; n < bench.jobs.length; n += 1) {
      if (!ready(bench, bench.jobs[n], state, needed)) continue;
      if (!bench.jobs[n].isSetting) return carriedOut(bench, state, n);
      if (first < 0 && !atRisk(bench, bench.jobs[n], state, needed)) first = n;
    }
    const idle = state.off & ~needed;
    const n = idle ? bench.parts.findIndex((p) => p.bit & idle && liesRight(p.onPosition, state) && !(p.inside & state.off)) : -1;
    if (n >= 0) return refitted(bench, state, n);
    return first < 0 ? null : carriedOut(bench, state, first);
  }

  /** All that costs nothing as the machine lies, the preferred first. */
  function run(bench, start) {
    let state = start;
    for (;;) {
      const next = atNoCost(bench, state);
      if (!next) return state;
      state = next;
    }
  }

  function moved(bench, job, state) {
    const on = job.on & state.off;
    const back = on ? bench.parts.findIndex((p) => p.bit & on && liesRight(p.onPosition, state) && !(p.inside & state.off)) : -1;
    if (back >= 0) return refitted(bench, state, back);
    const off = job.off & ~state.off;
    for (let n = bench.parts.length - 1; off && n >= 0; n -= 1) {
      const part = bench.parts[n];
      const blocked = part.front & ~state.off || part.upsets & state.done;
      if (part.bit & off && liesRight(part.offPosition, state) && !blocked) return takenOff(bench, state, n);
    }
    return null;
  }

  /** Parts put on and taken off for a job, those that move as the machine lies. */
  function brought(bench, job, start) {
    let state = start;
    for (;;) {
      const next = moved(bench, job, state);
      if (!next) return state;
      state = next;
    }
  }

  /** States one hop on: a turn, or what one job needs on and off as far as it can be done as the machine lies. */
  function further(bench, state, ahead) {
    const waiting = bench.jobs.filter((job) => !(job.bit & state.done) && (ahead || !(job.first & ~state.done)));
    return [...new Set([...bench.positions, state.lies])].sort().flatMap((lies) => {
      const turned = { ...state, lies, turns: state.turns + Number(lies !== state.lies) };
      const starts = [turned, ...waiting.map((job) => brought(bench, job, turned))];
      return starts.map((start) => run(bench, start)).flatMap((next) => [...(next.order !== state.order ? [next] : []), ...madeAtRisk(bench, next)]);
    });
  }

  function madeAtRisk(bench, state) {
    const needed = neededOff(bench, state.done);
    const now = bench.jobs.flatMap((job, n) => (job.isSetting && ready(bench, job, state, needed) ? [n] : []));
    return now.map((n) => run(bench, carriedOut(bench, state, n)));
  }

  /** The end of a least path to all jobs done: minutes of what comes off again, then turns; null if there is none. */
  const leastPath = (bench, start) => least(bench, start, false) || least(bench, start, true);

  /** `ahead`: parts move for jobs, too, that still wait for another. */
  function least(bench, start, ahead) {
    const all = union(bench.jobs.map((job) => job.bit));
    const closed = new Set();
    const open = new Map();
    const add = (state) => {
      const key = keyOf(state);
      if (!closed.has(key) && (!open.has(key) || better(state, open.get(key)) < 0)) open.set(key, state);
    };
    add(run(bench, start));
    while (open.size && closed.size < BUDGET) {
      const [key, state] = [...open].reduce((a, b) => (better(b[1], a[1]) < 0 ? b : a));
      open.delete(key);
      closed.add(key);
      if (state.done === all) return state;
      further(bench, state, ahead).forEach(add);
    }
    return null;
  }

  handwheel.job.leastPath = leastPath;
})();
