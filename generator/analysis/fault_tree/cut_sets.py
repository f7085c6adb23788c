"""Minimal cut sets on decision diagrams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.fault_tree.decision_diagram import NONE, UNIT, Diagram


@dataclass(frozen=True, slots=True)
class Limits:
    """What may be spent on a tree and what is listed of it."""

    nodes: int = 400_000
    "Nodes and steps of a decision diagram before exact work is given up: a second or two."
    sets: int = 10_000
    "Minimal cut sets listed."
    order: int | None = None
    "Events in the longest minimal cut set listed; None: any number."
    probability: float = 0.0
    "Minimal cut sets less probable than this are not listed."


@dataclass(frozen=True, slots=True)
class Listing:
    """Minimal cut sets, and what the rest of them can add at most."""

    sets: tuple[tuple[int, ...], ...]
    "Levels, ascending."
    complete: bool
    overfull: bool
    "More of them were within the limits than could be listed."
    dropped: float
    "Sum of the probabilities of the minimal cut sets not listed."


def minimal_sets(diagram: Diagram, root: int) -> int:
    """The family of the minimal cut sets of a monotone function, in the same store.

    "New algorithms for fault trees analysis", Reliability Engineering and System
    Safety 40(3), 1993: the minimal sets of `if x then F else G` are those of G, and those of F
    that contain none of them, with x added. Raises BudgetExceeded.

    >>> diagram = Diagram(2, budget=20)
    >>> b = diagram.function(1, UNIT, NONE)
    >>> sets = minimal_sets(diagram, diagram.function(0, UNIT, b))
    >>> list_sets(diagram, sets, (0.5, 0.5), Limits()).sets
    ((0,), (1,))
    """
    families = {NONE: NONE, UNIT: UNIT}
    for node in diagram.below(root):
        plain = families[diagram.low[node]]
        having = diagram.without(families[diagram.high[node]], plain)
        families[node] = diagram.family(diagram.level[node], having, plain)
    return families[root]


def union_functions(diagram: Diagram, family: int) -> dict[int, int]:
    """For each family in a diagram, the function that is true when one of its sets is whole."""
    functions = {NONE: NONE, UNIT: UNIT}
    for node in diagram.below(family):
        plain = functions[diagram.low[node]]
        having = diagram.either(functions[diagram.high[node]], plain)
        functions[node] = diagram.function(diagram.level[node], having, plain)
    return functions


def joined(diagram: Diagram, first: int, then: int) -> int:
    """Every union of a set of one family and a set of another whose levels are all deeper."""
    families = {NONE: NONE, UNIT: then}
    for node in diagram.below(first) if then != UNIT else ():
        high, low = families[diagram.high[node]], families[diagram.low[node]]
        families[node] = diagram.family(diagram.level[node], high, low)
    return families.get(first, first)


def together(diagram: Diagram, first: int, then: int) -> int:
    """The sets of two families; those of the first are not empty and begin at higher levels."""
    spine = []
    while first != NONE:
        spine.append(first)
        first = diagram.low[first]
    for node in reversed(spine):
        then = diagram.family(diagram.level[node], diagram.high[node], then)
    return then


def list_sets(diagram: Diagram, family: int, q: Sequence[float], limits: Limits) -> Listing:
    """The sets of a family within the limits: all up to the greatest order that still fits.

    Where the shortest sets alone are too many, the first of them by level are listed.
    """
    known = _ahead_of(diagram, family, q)
    longest = len(q) if limits.order is None else limits.order
    best = _walk(diagram, family, q, known, limits, longest)
    if not best.overfull:
        return best
    for order in range(known[family].shortest, longest):
        more = _walk(diagram, family, q, known, limits, order)
        if more.overfull and order > known[family].shortest:
            break
        best = more
    return best


@dataclass(frozen=True, slots=True)
class _Ahead:
    """What a family holds, without listing it."""

    shortest: int
    likeliest: float
    total: float
    "Sum of the probabilities of its sets."


def _ahead_of(diagram: Diagram, family: int, q: Sequence[float]) -> dict[int, _Ahead]:
    known = {NONE: _Ahead(len(q) + 1, 0.0, 0.0), UNIT: _Ahead(0, 1.0, 1.0)}
    for node in diagram.below(family):
        high, low = known[diagram.high[node]], known[diagram.low[node]]
        p = q[diagram.level[node]]
        known[node] = _Ahead(
            min(high.shortest + 1, low.shortest),
            max(high.likeliest * p, low.likeliest),
            high.total * p + low.total,
        )
    return known


def _walk(
    diagram: Diagram,
    family: int,
    q: Sequence[float],
    known: dict[int, _Ahead],
    limits: Limits,
    order: int,
) -> Listing:
    """The sets of at most `order` events; a branch that holds none is not entered."""
    kept: list[tuple[int, ...]] = []
    dropped, complete, overfull = 0.0, True, False
    stack: list[tuple[int, tuple[int, ...], float]] = [(family, (), 1.0)]
    while stack:
        node, chosen, p = stack.pop()
        ahead = known[node]
        short = len(chosen) + ahead.shortest <= order and p * ahead.likeliest >= limits.probability
        if node == NONE:
            continue
        if not short or len(kept) == limits.sets:
            dropped, complete, overfull = dropped + p * ahead.total, False, overfull or short
        elif node == UNIT:
            kept.append(chosen)
        else:
            level = diagram.level[node]
            stack.append((diagram.low[node], chosen, p))
            stack.append((diagram.high[node], (*chosen, level), p * q[level]))
    return Listing(tuple(kept), complete, overfull, dropped)
