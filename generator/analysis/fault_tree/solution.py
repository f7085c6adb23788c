"""A fault tree turned into decision diagrams, exactly or, where it would explode, in part."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from math import fsum, prod
from typing import Any

from generator.analysis.fault_tree.cut_sets import (
    Limits,
    joined,
    minimal_sets,
    together,
)
from generator.analysis.fault_tree.decision_diagram import (
    NONE,
    UNIT,
    BudgetExceeded,
    Diagram,
    function_of,
    probabilities,
)
from generator.analysis.fault_tree.expansion import Expansion, expand
from generator.analysis.fault_tree.modules import modules
from generator.analysis.fault_tree.structure import Structure, Vote
from generator.analysis.fault_tree.variable_order import well_ordered

_FIRST_SETS = 500
"Cut sets tried at first for the lower bound of a tree that is too large; halved until they fit."


@dataclass(frozen=True, slots=True)
class SolvedModule:
    """One module, solved."""

    events: tuple[str | int, ...]
    "By level; a number names an earlier part."
    root: int
    "Its function in the diagram."


@dataclass(frozen=True, slots=True)
class Solution:
    """A tree as a chain of solved modules; the last is the top event."""

    diagram: Diagram
    parts: tuple[SolvedModule, ...]
    exact: bool
    missed: float = 0.0
    "Upper bound of what the top event's probability can be beyond that of the parts."
    floor: float = 0.0
    ceiling: float = 1.0
    "Further bounds of the top event's probability."

    def values(self, q: Mapping[str, float]) -> tuple[dict[str | int, float], float]:
        """The probabilities of events and parts, and that of the top event."""
        known: dict[str | int, float] = dict(q.items())
        for number, part in enumerate(self.parts):
            by_level = [known[event] for event in part.events]
            known[number] = probabilities(self.diagram, part.root, by_level)[part.root]
        return known, known[len(self.parts) - 1]


def solve(tree: Structure, limits: Limits) -> Solution:
    """The tree as decision diagrams. Raises BudgetExceeded."""
    parts = [well_ordered(part) for part in modules(tree)]
    diagram = Diagram(len(tree.events) + len(parts), limits.nodes)
    solved = (SolvedModule(part.events, function_of(diagram, part)) for part in parts)
    return Solution(diagram, tuple(solved), exact=True)


def solutions_in_part(
    tree: Structure, q: Mapping[Any, float], limits: Limits
) -> Iterator[Solution]:
    """The likeliest cut sets of a tree as decision diagrams, each with a bound on all the others.

    Fewer and fewer sets, as long as the caller asks; only those that fit the limits.
    """
    tree = well_ordered(tree)
    by_level = [q[event] for event in tree.events]
    found = expand(tree, by_level, limits)
    count = min(_FIRST_SETS, len(found.sets))
    while True:
        with suppress(BudgetExceeded):
            yield _solved_sets(tree, by_level, found, count, limits)
        if count == 0:
            return
        count //= 2


def family(solution: Solution) -> tuple[Diagram, tuple[str, ...], int]:
    """The minimal cut sets of a whole solution, in its diagram, with the events by level.

    Raises BudgetExceeded.
    """
    diagram = solution.diagram
    names = _names(solution.parts)
    levels: dict[str | int, int] = {name: level for level, name in enumerate(names)}
    families: dict[str | int, int] = {n: diagram.family(levels[n], UNIT, NONE) for n in names}
    for number, part in enumerate(solution.parts):
        families[number] = _family_of(diagram, part, families)
    return diagram, names, families[len(solution.parts) - 1]


def _solved_sets(
    tree: Structure, q: Sequence[float], found: Expansion, count: int, limits: Limits
) -> Solution:
    diagram = Diagram(len(tree.events), limits.nodes)
    root = function_of(diagram, _tree_of(tree.events, found.sets[:count]))
    left = fsum(_product(q, cut_set) for cut_set in found.sets[count:])
    exact = found.complete and count == len(found.sets)
    part = SolvedModule(tree.events, root)
    return Solution(diagram, (part,), exact, found.missed + left, found.floor, found.ceiling)


def _product(q: Sequence[float], cut_set: Sequence[int]) -> float:
    return prod(q[n] for n in cut_set)


def _tree_of(events: tuple[str | int, ...], sets: Sequence[tuple[int, ...]]) -> Structure:
    """A tree that has these minimal cut sets; sets that begin alike share a gate."""
    inputs: dict[tuple[int, ...], list[int]] = {(): []}
    for cut_set in sets:
        for length in range(1, len(cut_set)):
            inputs.setdefault(cut_set[:length], [])
        inputs[cut_set[:-1]].append(cut_set[-1])
    gates: list[Vote] = []
    for begin in sorted(inputs, key=lambda b: (-len(b), b)):
        gates.append(Vote(1, tuple(inputs[begin])))
        if begin:
            gates.append(Vote(2, (begin[-1], len(events) + len(gates) - 1)))
            inputs[begin[:-1]].append(len(events) + len(gates) - 1)
    return Structure(events, tuple(gates), len(events) + len(gates) - 1)


def _names(parts: Sequence[SolvedModule]) -> tuple[str, ...]:
    """The events of all parts, each part in the place where it stands."""
    names: list[str] = []
    stack: list[str | int] = [len(parts) - 1]
    while stack:
        event = stack.pop()
        if isinstance(event, int):
            stack.extend(reversed(parts[event].events))
        else:
            names.append(event)
    return tuple(names)


def _family_of(diagram: Diagram, part: SolvedModule, families: Mapping[str | int, int]) -> int:
    """A part's minimal cut sets with the sets of earlier parts in the place of their numbers."""
    local = minimal_sets(diagram, part.root)
    whole = {NONE: NONE, UNIT: UNIT}
    for node in diagram.below(local):
        event = families[part.events[diagram.level[node]]]
        having = joined(diagram, event, whole[diagram.high[node]])
        whole[node] = together(diagram, having, whole[diagram.low[node]])
    return whole[local]
