"""The three questions to a fault tree, answered within limits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from itertools import chain
from typing import Any

from generator.analysis.fault_tree.cut_sets import Limits, Listing, list_sets
from generator.analysis.fault_tree.decision_diagram import BudgetExceeded
from generator.analysis.fault_tree.expansion import expand
from generator.analysis.fault_tree.importance import (
    Importance,
    birnbaum,
    fussell_vesely,
    ratio,
)
from generator.analysis.fault_tree.solution import (
    Solution,
    family,
    solutions_in_part,
    solve,
)
from generator.analysis.fault_tree.structure import Structure, checked, structure
from generator.analysis.tree import Gate

_EVEN = 0.5
"Any probability serves to order cut sets by length alone, as long as all events have the same."


@dataclass(frozen=True, slots=True)
class Probability:
    """The top event's probability."""

    value: float
    "Exact, or the upper bound."
    lower: float
    upper: float
    exact: bool


@dataclass(frozen=True, slots=True)
class CutSets:
    """The smallest combinations of basic events that are enough for the top event."""

    sets: tuple[tuple[str, ...], ...]
    "Ids in order; sorted by the number of events, then by ids."
    exact: bool
    "Whether these are all of them."
    bound: float | None
    "The probability that one of those left out is whole is at most this; None: not known."
    said: str
    "The same in words, for a reader."


def top_probability(top: Gate, q: Mapping[str, float], limits: Limits = Limits()) -> Probability:
    """The probability of the top event, from those of its basic events by id.

    Raises ValueError for a missing probability, one outside 0 to 1, or a gate that asks for more
    inputs than it has.

    >>> from generator.analysis.tree import Event
    >>> both = Gate("both", "", "all", (Event("e1"), Event("e2")))
    >>> top = Gate("top", "", "any", (both, Event("e3")))
    >>> round(top_probability(top, {"e1": 0.067, "e2": 0.075, "e3": 0.005}).value, 9)
    0.009999875
    """
    tree = structure(top)
    q = checked(tree.events, q)
    solution = next(_solutions(tree, q, limits))
    value = solution.values(q)[1]
    if solution.exact:
        return Probability(value, value, value, exact=True)
    upper = min(value + solution.missed, solution.ceiling)
    return Probability(upper, min(upper, max(value, solution.floor)), upper, exact=False)


def minimal_cut_sets(
    top: Gate, q: Mapping[str, float] | None = None, limits: Limits = Limits()
) -> CutSets:
    """The minimal cut sets, all or up to the limits; `q` is needed for a bound on those left out.

    Raises ValueError as `top_probability` does, and for a limit by probability without `q`.

    >>> from generator.analysis.tree import Event
    >>> both = Gate("both", "", "all", (Event("e2"), Event("e1")))
    >>> minimal_cut_sets(Gate("top", "", "any", (both, Event("e3")))).sets
    (('e3',), ('e1', 'e2'))
    """
    if q is None and limits.probability:
        raise ValueError("A limit by probability needs the probabilities of the events.")
    tree = structure(top)
    known = checked(tree.events, dict.fromkeys(map(str, tree.events), _EVEN) if q is None else q)
    names, listing = _listing(tree, known, limits)
    named = (tuple(sorted(names[n] for n in cut_set)) for cut_set in listing.sets)
    sets = tuple(sorted(named, key=lambda cut_set: (len(cut_set), cut_set)))
    dropped = None if q is None else min(1.0, listing.dropped)
    bound = 0.0 if listing.complete else dropped
    return CutSets(sets, listing.complete, bound, _said(len(sets), listing.complete, bound))


def importance(
    top: Gate, q: Mapping[str, float], limits: Limits = Limits()
) -> dict[str, Importance]:
    """Birnbaum, Fussell-Vesely and criticality importance of every basic event, by id.

    Birnbaum and criticality come from one sweep for all events. Where the tree is too large, the
    measures count its likeliest cut sets only, and say so. Raises ValueError as `top_probability`.

    >>> from generator.analysis.tree import Event
    >>> both = Gate("both", "", "all", (Event("a"), Event("b")))
    >>> importance(both, {"a": 0.5, "b": 0.25})["a"]
    Importance(birnbaum=0.25, fussell_vesely=1.0, criticality=1.0, exact=True)
    """
    tree = structure(top)
    q = checked(tree.events, q)
    solutions = _solutions(tree, q, limits)
    best = next(solutions)
    top_value = best.values(q)[1]
    changes = birnbaum(best, q)
    shares, exact = _shares(chain((best,), solutions), q, top_value)
    return {
        event: Importance(
            changes[event],
            min(1.0, shares[event]),
            ratio(changes[event] * q[event], top_value),
            exact,
        )
        for event in sorted(q)
    }


def _shares(
    solutions: Iterable[Solution], q: Mapping[str, float], top: float
) -> tuple[dict[str, float], bool]:
    """Fussell-Vesely importance from the first solution that fits, and whether it is exact."""
    for solution in solutions:
        with suppress(BudgetExceeded):
            return fussell_vesely(solution, q, top), solution.exact
    raise AssertionError("a solution without cut sets fits every limit")


def _solutions(tree: Structure, q: Mapping[str, float], limits: Limits) -> Iterator[Solution]:
    """The exact solution if it fits, and then solutions of fewer and fewer cut sets."""
    with suppress(BudgetExceeded):
        yield solve(tree, limits)
    yield from solutions_in_part(tree, q, limits)


def _listing(
    tree: Structure, q: Mapping[Any, float], limits: Limits
) -> tuple[tuple[Any, ...], Listing]:
    """The cut sets as levels, and the ids by level."""
    try:
        diagram, names, sets = family(solve(tree, limits))
        return names, list_sets(diagram, sets, [q[name] for name in names], limits)
    except BudgetExceeded:
        found = expand(tree, [q[name] for name in tree.events], limits)
        return tree.events, Listing(found.sets, found.complete, not found.complete, found.missed)


def _said(count: int, complete: bool, bound: float | None) -> str:
    sets = "1 minimal cut set" if count == 1 else f"{count} minimal cut sets"
    if complete:
        return f"{sets} and no more."
    if bound is None:
        return f"{sets} listed; others are left out."
    return f"{sets} listed; the probability of those left out is at most {bound:.3g}."
