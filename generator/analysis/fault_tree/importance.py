"""How much each basic event matters to the top event."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.fault_tree.cut_sets import minimal_sets, union_functions
from generator.analysis.fault_tree.decision_diagram import (
    NONE,
    UNIT,
    Diagram,
    probabilities,
)
from generator.analysis.fault_tree.solution import Solution, SolvedModule


@dataclass(frozen=True, slots=True)
class Importance:
    """The three measures of one basic event; 0 where the top event cannot occur."""

    birnbaum: float
    "P(top | event) - P(top | no event)."
    fussell_vesely: float
    "P(at least one minimal cut set that holds the event is whole) / P(top)."
    criticality: float
    "Birnbaum times P(event) / P(top)."
    exact: bool = True
    "False where only the likeliest cut sets of a large tree could be counted."


def birnbaum(solution: Solution, q: Mapping[str, float]) -> dict[str, float]:
    """Birnbaum importance of every event of a solved tree.

    It multiplies down a chain of modules: that of a module times that of an event within it.
    """
    known, _ = solution.values(q)

    def changes(_: int, part: SolvedModule) -> list[float]:
        return _changes(solution.diagram, part, [known[event] for event in part.events])

    return _down_the_modules(solution, 1.0, changes)


def fussell_vesely(solution: Solution, q: Mapping[str, float], top: float) -> dict[str, float]:
    """Fussell-Vesely importance of every event; `top`: the top event's probability.

    It multiplies down a chain of modules as Birnbaum's does. Raises BudgetExceeded.
    """
    known, value = solution.values(q)

    def shares(number: int, part: SolvedModule) -> list[float]:
        unions = _unions(solution.diagram, part, [known[event] for event in part.events])
        return [ratio(union, known[number]) for union in unions]

    return _down_the_modules(solution, ratio(value, top), shares)


def ratio(part: float, whole: float) -> float:
    """0 where the whole is 0: nothing matters to what cannot occur."""
    return part / whole if whole else 0.0


def _down_the_modules(
    solution: Solution, top: float, within: Callable[[int, SolvedModule], Sequence[float]]
) -> dict[str, float]:
    """The events' measures, from the top event's and from those of events within their modules."""
    last = len(solution.parts) - 1
    measures: dict[str | int, float] = {last: top}
    for number in range(last, -1, -1):
        part = solution.parts[number]
        for event, value in zip(part.events, within(number, part), strict=True):
            measures[event] = measures[number] * value
    return {event: value for event, value in measures.items() if isinstance(event, str)}


def _changes(diagram: Diagram, part: SolvedModule, q: Sequence[float]) -> list[float]:
    """By level, for all events at once: the probability to come to a node from above, times what
    its event changes there.

    "Efficient algorithms to assess component and gate importance in fault
    tree analysis", Reliability Engineering and System Safety 72(2), 2001.
    """
    below = probabilities(diagram, part.root, q)
    reached = dict.fromkeys(below, 0.0) | {part.root: 1.0}
    changes = [0.0] * len(q)
    for node in reversed(diagram.below(part.root)):
        level, high, low = diagram.level[node], diagram.high[node], diagram.low[node]
        changes[level] += reached[node] * (below[high] - below[low])
        reached[high] += reached[node] * q[level]
        reached[low] += reached[node] * (1 - q[level])
    return changes


def _unions(diagram: Diagram, part: SolvedModule, q: Sequence[float]) -> list[float]:
    """By level: the probability that a minimal cut set that holds the event is whole."""
    family = minimal_sets(diagram, part.root)
    functions = union_functions(diagram, family)
    nodes = diagram.below(family)
    known = {NONE: 0.0, UNIT: 1.0}
    unions = []
    for level in range(len(q)):
        holding = _holding(diagram, nodes, level, functions).get(family, NONE)
        known |= probabilities(diagram, holding, q)
        unions.append(known[holding])
    return unions


def _holding(
    diagram: Diagram, nodes: Sequence[int], level: int, functions: Mapping[int, int]
) -> dict[int, int]:
    """For the families above a level, the function that is true when one of their sets that holds
    the level's event is whole."""
    found: dict[int, int] = {}
    for node in nodes:
        here, high, low = diagram.level[node], diagram.high[node], diagram.low[node]
        if here == level:
            found[node] = diagram.function(level, functions[high], NONE)
        elif here < level and (high in found or low in found):
            plain = found.get(low, NONE)
            having = diagram.either(found.get(high, NONE), plain)
            found[node] = diagram.function(here, having, plain)
    return found
