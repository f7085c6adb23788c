/* Refits, settings and checks of the way out as bits for the least path: as generator/analysis/job/way_out.py. */
(function () {
  "use strict";
  const { UPRIGHT, leastPath } = handwheel.job;

  const cmp = (a, b) => (a < b ? -1 : Number(a > b));

  /** How many settings of the whole machine come before one by `after`. */
  function rankOf(family, setting) {
    const found = new Set();
    const stack = [...family.settings[setting].after];
    while (stack.length) {
      const id = stack.pop();
      if (found.has(id)) continue;
      found.add(id);
      stack.push(...family.settings[id].after);
    }
    return found.size;
  }

  /** Whether no setting is read against a part: it neither wears, nor is oiled, nor upsets anything. */
  const isCover = (part) => !part.wears && !part.oil.length && !part.disturbs.length;

  /** Checks that prove the settings made, each with the settings that share it. */
  function proofsOf(family, later) {
    const found = new Map();
    Object.keys(later).sort().forEach((s) => {
      const check = family.settings[s].proved_by;
      if (check) found.set(check, [...(found.get(check) || []), s]);
    });
    return found;
  }

  function jobsOf(family, later, shared) {
    const rank = Object.fromEntries(Object.keys(later).map((s) => [s, rankOf(family, s)]));
    const settings = Object.keys(later).sort((a, b) => rank[a] - rank[b] || cmp(a, b));
    return [
      ...settings.map((id) => ({ do: "set", id, position: family.settings[id].position })),
      ...[...shared.keys()].sort().map((id) => ({ do: "check", id, position: family.checks[id].position })),
      { do: "sew", id: "", position: UPRIGHT },
    ].map((job, n) => ({ ...job, bit: 1n << BigInt(n), isSetting: job.do === "set", namesNone: job.do === "set" && !family.settings[job.id].parts_on.length, first: 0n, off: 0n, on: 0n }));
  }

  /** Whether one job is done before the other; a check under power comes after every setting made by hand. */
  function before(one, other, later, shared, live) {
    if (other.do === "sew") return one.do !== "sew";
    if (one.do === "sew") return false;
    const byHand = (job) => !live.includes(job.id);
    if (one.do === "set" && other.do === "check") return shared.get(other.id).includes(one.id) || (!byHand(other) && byHand(one));
    if (one.do === "set") return later[one.id].has(other.id);
    if (!byHand(one)) return false;
    return other.do === "set" && shared.get(one.id).every((s) => later[s].has(other.id));
  }

  function partsOf(family, ids, jobs, bits) {
    return ids.map((id, n) => {
      const part = family.parts[id];
      return {
        bit: 1n << BigInt(n),
        onPosition: part.on_position,
        offPosition: part.off_position,
        front: bits(part.behind),
        inside: bits(ids.filter((other) => family.parts[other].behind.includes(id))),
        cost: Math.max(1, Math.round(part.off * 10000) + Math.round(part.on * 10000)),
        upsets: jobs.filter((job) => job.do === "set" && part.disturbs.includes(job.id)).reduce((all, job) => all | job.bit, 0n),
        readAgainst: !isCover(part),
      };
    });
  }

  function benchOf(family, ids, { off, on, later }) {
    const there = new Map(ids.map((id, n) => [id, 1n << BigInt(n)]));
    const bits = (some) => [...some].reduce((all, id) => all | (there.get(id) || 0n), 0n);
    const shared = proofsOf(family, later);
    const jobs = jobsOf(family, later, shared);
    jobs.forEach((job) => {
      const key = `${job.do} ${job.id}`;
      job.first = jobs.filter((one) => before(one, job, later, shared, family.live)).reduce((all, one) => all | one.bit, 0n);
      job.off = bits(off[key] || []);
      job.on = bits(job.do === "sew" ? ids : on[key] || []);
    });
    const parts = partsOf(family, ids, jobs, bits);
    const positions = [...parts.flatMap((p) => [p.onPosition, p.offPosition]), ...jobs.map((job) => job.position)];
    return { parts, jobs, bits, positions: positions.filter(Boolean) };
  }

  /** {tasks, extra, turns} from how the machine lies, with `off` of the parts `order` off, the sew left out; null if none. */
  function wayOut(family, order, off, needs, lies) {
    const ids = [...order].reverse();
    const bench = benchOf(family, ids, needs);
    const end = leastPath(bench, { done: 0n, off: bench.bits(off), lies, extra: 0, turns: 0, order: "" });
    if (!end) return null;
    const part = (what) => ids.map((id) => ({ do: what, id }));
    const tasks = [...part("refit"), ...bench.jobs, ...part("take off")];
    return { tasks: [...end.order].map((sign) => tasks[sign.charCodeAt(0) - 1]).slice(0, -1), extra: end.extra, turns: end.turns };
  }

  Object.assign(handwheel.job, { wayOut, proofsOf });
})();
