/* The way in: the same dynamic programme, weights and ties as generator/analysis/job/way_in.py.
   A set of parts is one integer, a bit for each; an order is a string of part numbers, so that strings compare as orders. */
(function () {
  "use strict";

  const [WIDTH, BEAM] = [2000, 300]; // states that may stand after each part; those kept when there are more
  const [POSITION_CHANGE, TOOL_CHANGE] = [10, 1];
  const UPRIGHT = "upright";
  const START = { off: 0n, position: UPRIGHT, hand: "", weight: 0, order: "" };

  const weightOf = (turns, tools) => turns * POSITION_CHANGE + tools * TOOL_CHANGE;
  const better = (a, b) => a.weight < b.weight || (a.weight === b.weight && a.order < b.order);
  const keyOf = (state) => `${state.off.toString(36)}|${state.position}|${state.hand}`;

  function tasksOf(family, ids) {
    const bit = Object.fromEntries(ids.map((id, n) => [id, 1n << BigInt(n)]));
    return ids.map((id, n) => ({
      id,
      sign: String.fromCharCode(n + 1),
      bit: bit[id],
      behind: [...new Set(family.parts[id].behind)].reduce((all, b) => all | bit[b], 0n),
      position: family.parts[id].off_position,
      tools: family.parts[id].off_tools,
    }));
  }

  /** Turns of the machine and tools picked up to take a part off in a state. */
  function changes(task, state) {
    const hands = [state.hand, ...task.tools];
    return [Number(!["", state.position].includes(task.position)), task.tools.filter((tool, n) => tool !== hands[n]).length];
  }

  function taken(task, state, added) {
    return {
      off: state.off | task.bit,
      position: task.position || state.position,
      hand: task.tools.length ? task.tools[task.tools.length - 1] : state.hand,
      weight: state.weight + added,
      order: state.order + task.sign,
    };
  }

  /** Parts that can come off next with their weights; the first that costs nothing stands alone. */
  function choices(tasks, state) {
    const free = tasks.filter((task) => !(task.bit & state.off) && !(task.behind & ~state.off));
    const weighed = free.map((task) => [task, weightOf(...changes(task, state))]);
    const atNoCost = weighed.find(([, weight]) => !weight);
    return atNoCost ? [atNoCost] : weighed;
  }

  function keepBetter(found, key, state) {
    const there = found.get(key);
    if (!there || better(state, there)) found.set(key, state);
  }

  function oneMoreOff(states, tasks) {
    const further = new Map();
    for (const state of states) {
      for (const [task, added] of choices(tasks, state)) {
        const then = taken(task, state, added);
        keepBetter(further, keyOf(then), then);
      }
    }
    return [...further.values()];
  }

  /** Without the states to which the best one with the same parts off could be brought for no more. */
  function undominated(states) {
    const best = new Map();
    states.forEach((state) => keepBetter(best, state.off, state));
    return states.filter((state) => {
      const leader = best.get(state.off);
      const bring = weightOf(Number(state.position !== leader.position), Number(state.hand !== leader.hand));
      return state === leader || state.weight < leader.weight + bring;
    });
  }

  function bitsBy(tasks, keysOf) {
    const found = new Map();
    tasks.forEach((task) => keysOf(task).forEach((key) => found.set(key, (found.get(key) || 0n) | task.bit)));
    return [...found];
  }

  function mostPromising(states, tasks) {
    if (states.length <= WIDTH) return states;
    const [byPosition, byTool] = [bitsBy(tasks, (t) => [t.position].filter(Boolean)), bitsBy(tasks, (t) => t.tools)];
    const still = (groups, now, off) => groups.filter(([key, bits]) => key !== now && bits & ~off).length;
    const promise = (s) => s.weight + weightOf(still(byPosition, s.position, s.off), still(byTool, s.hand, s.off));
    const ranked = states.map((state) => ({ state, promise: promise(state) }));
    ranked.sort((a, b) => a.promise - b.promise || (better(a.state, b.state) ? -1 : 1));
    return ranked.slice(0, BEAM).map((item) => item.state);
  }

  function count(order) {
    let [turns, tools] = [0, 0];
    /** @type {any} */
    let state = START;
    for (const task of order) {
      const [turned, picked] = changes(task, state);
      [turns, tools, state] = [turns + turned, tools + picked, taken(task, state, 0)];
    }
    return { position: turns, tool: tools };
  }

  /** {parts, changes: {position, tool, fewest}}; `parts` holds, with every part, all that it is behind. */
  function order(family, parts) {
    const tasks = tasksOf(family, [...parts].sort());
    /** @type {any[]} */
    let states = [START];
    let exact = true;
    for (let taken = 0; taken < tasks.length; taken += 1) {
      states = undominated(oneMoreOff(states, tasks));
      exact = exact && states.length <= WIDTH;
      states = mostPromising(states, tasks);
    }
    const best = states.reduce((a, b) => (better(b, a) ? b : a));
    const chosen = [...best.order].map((sign) => tasks[sign.charCodeAt(0) - 1]);
    return { parts: chosen.map((task) => task.id), changes: { ...count(chosen), fewest: exact } };
  }

  handwheel.job = { UPRIGHT, order };
})();
