"""The way in: an order of taking off that turns the machine over and changes tools as little as it can."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from generator.analysis.job.types import UPRIGHT, Practice, Weights
from generator.analysis.machine import Machine

WIDTH = 2_000
"States that may stand after each part. A way in that never meets more is ordered exactly."
BEAM = 300
"States kept when there are more."

_State = tuple[int, str, str]
"Parts off (a bit for each), how the machine lies, the tool in hand."
_Way = tuple[int, tuple[int, ...]]
"Weight of the changes so far and the parts in order; the smaller is the better, ties by id."


@dataclass(frozen=True, slots=True)
class WayIn:
    """An order of taking off and what it costs in changes."""

    parts: tuple[str, ...]
    position_changes: int
    tool_changes: int
    exact: bool
    "Whether its weight is proved the least."


@dataclass(frozen=True, slots=True)
class _Task:
    """One part by number: the rest by bits, so that a set of parts is one integer."""

    bit: int
    behind: int
    position: str
    "Empty: as the machine lies."
    tools: tuple[str, ...]

    def after(self, state: _State) -> _State:
        off, position, hand = state
        return off | self.bit, self.position or position, self.tools[-1] if self.tools else hand

    def changes(self, state: _State) -> tuple[int, int]:
        """Changes of position and of tool to take this part off in a state."""
        _, position, hand = state
        hands = (hand, *self.tools)
        return int(self.position not in ("", position)), sum(a != b for a, b in zip(hands, self.tools, strict=False))


@dataclass(frozen=True, slots=True)
class _Bench:
    """The tasks, their weights, and which of them share a position or a tool, by bits."""

    tasks: tuple[_Task, ...]
    weights: Weights
    by_position: dict[str, int]
    by_tool: dict[str, int]

    def weight(self, changes: tuple[int, int]) -> int:
        return changes[0] * self.weights.position_change + changes[1] * self.weights.tool_change

    def at_least(self, state: _State) -> int:
        """Weight still to come at the least: each position and each tool not yet there, once."""
        off, position, hand = state
        turns = sum(p != position and bits & ~off != 0 for p, bits in self.by_position.items())
        tools = sum(t != hand and bits & ~off != 0 for t, bits in self.by_tool.items())
        return self.weight((turns, tools))


def way_in(
    machine: Machine, parts: Iterable[str], practice: Practice, weights: Weights, width: int = WIDTH
) -> WayIn:
    """Order the parts so that none comes off before what it is behind, with the least weight of changes.

    `parts` holds, with every part, all that it is behind. The machine starts upright and the hand
    empty. The weight is a sum (`Weights.position_change` for each turn of the machine,
    `Weights.tool_change` for each tool picked up) and not "positions first, tools only on a tie":
    one more turn of a heavy head is worth it if it saves a great many tools, and by default that
    is ten. The default weights are an estimate.

    A dynamic programme over subsets ("A dynamic programming approach to sequencing problems", 1962),
    kept to the down-sets of `behind`: a state is the parts off, the position and the tool in hand. A part
    that costs no change is taken at once, which never costs more, since changes obey the triangle
    inequality. When more than `width` states stand after a part, the `BEAM` most promising are kept
    (beam search) and `exact` is False. Time O(parts x width x parts). Equal weights are told apart by id.

    Raises ValueError if the parts wait for each other or for one that is not among them.

    >>> from generator.analysis.job.types import Handling
    >>> from generator.analysis.machine import MachinePart
    >>> m = Machine({"cover": MachinePart("cover"), "gear": MachinePart("gear", ("cover",)), "plate": MachinePart("plate")})
    >>> back = Handling(off_position="on-its-back")
    >>> way_in(m, m.parts, Practice({"cover": back, "gear": back}), Weights()).parts
    ('plate', 'cover', 'gear')
    """
    ids = sorted(set(parts))
    bench = _bench(_tasks(machine, ids, practice), weights)
    ways: dict[_State, _Way] = {(0, UPRIGHT, ""): (0, ())}
    exact = True
    for _ in ids:
        ways = _undominated(_one_more_off(ways, bench), bench)
        exact = exact and len(ways) <= width
        ways = _most_promising(ways, bench, width)
    if not ways:
        raise ValueError(f"no order of taking off: among {', '.join(ids)} some wait for each other")
    order = min(ways.values())[1]
    return WayIn(tuple(ids[n] for n in order), *_count([bench.tasks[n] for n in order]), exact)


def _tasks(machine: Machine, ids: list[str], practice: Practice) -> tuple[_Task, ...]:
    bit = {id: 1 << n for n, id in enumerate(ids)}
    outside = sorted({b for id in ids for b in machine.parts[id].behind} - bit.keys())
    if outside:
        raise ValueError(f"no way in without {', '.join(outside)}")
    behind = {id: sum(bit[b] for b in set(machine.parts[id].behind)) for id in ids}
    handled = [(id, practice.part(id)) for id in ids]
    return tuple(_Task(bit[id], behind[id], h.off_position, h.off_tools) for id, h in handled)


def _bench(tasks: tuple[_Task, ...], weights: Weights) -> _Bench:
    by_position: dict[str, int] = {}
    by_tool: dict[str, int] = {}
    for task in tasks:
        if task.position:
            by_position[task.position] = by_position.get(task.position, 0) | task.bit
        for tool in task.tools:
            by_tool[tool] = by_tool.get(tool, 0) | task.bit
    return _Bench(tasks, weights, by_position, by_tool)


def _one_more_off(ways: dict[_State, _Way], bench: _Bench) -> dict[_State, _Way]:
    further: dict[_State, _Way] = {}
    for state, (weight, order) in ways.items():
        for n, added in _choices(state, bench):
            then = bench.tasks[n].after(state)
            way = (weight + added, (*order, n))
            further[then] = min(way, further.get(then, way))
    return further


def _undominated(ways: dict[_State, _Way], bench: _Bench) -> dict[_State, _Way]:
    """Drop a state if the best one with the same parts off could be brought to it for no more."""
    best: dict[int, tuple[_Way, _State]] = {}
    for state, way in ways.items():
        best[state[0]] = min((way, state), best.get(state[0], (way, state)))

    def kept(state: _State, weight: int) -> bool:
        (least, _), leader = best[state[0]]
        differs = int(state[1] != leader[1]), int(state[2] != leader[2])
        return state == leader or weight < least + bench.weight(differs)

    return {state: way for state, way in ways.items() if kept(state, way[0])}


def _choices(state: _State, bench: _Bench) -> Iterator[tuple[int, int]]:
    """Parts that can come off next with the weight of each; the first that costs nothing stands alone."""
    off = state[0]
    free = [n for n, t in enumerate(bench.tasks) if not t.bit & off and not t.behind & ~off]
    weighed = [(n, bench.weight(bench.tasks[n].changes(state))) for n in free]
    at_no_cost = [choice for choice in weighed if not choice[1]]
    yield from at_no_cost[:1] or weighed


def _most_promising(
    ways: dict[_State, _Way], bench: _Bench, width: int
) -> dict[_State, _Way]:
    if len(ways) <= width:
        return ways

    def promise(item: tuple[_State, _Way]) -> tuple[int, _Way]:
        state, way = item
        return way[0] + bench.at_least(state), way

    return dict(sorted(ways.items(), key=promise)[:BEAM])


def _count(order: list[_Task]) -> tuple[int, int]:
    state: _State = (0, UPRIGHT, "")
    turns = tools = 0
    for task in order:
        turned, picked = task.changes(state)
        turns, tools, state = turns + turned, tools + picked, task.after(state)
    return turns, tools
