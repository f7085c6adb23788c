"""The one check that is missing most: what a perfect check could save."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from math import fsum

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.solve import Solution, solve
from generator.analysis.coverage.policy_run import Left, PolicyRun, Stop
from generator.analysis.policy import Node

MINUTES = 2.0
"What the hypothetical check takes, nothing opened."
SOLVED_AGAIN = 8
"Hypotheses of a case up to which every split is solved again."
ALL_SPLITS = 5
"Remedies of a set up to which every split is tried."
LIKELIEST = 8
"Of larger sets, only this many of the likeliest remedies are shown: each alone, and the first few together."


@dataclass(frozen=True, slots=True)
class MissingCheck:
    """A perfect check of two outcomes that would shorten the case most."""

    shows: tuple[str, ...]
    "Hypotheses of the set that it would show; everything else shows the other outcome."
    others: tuple[str, ...]
    "The rest of the set."
    saves_minutes: float
    "Expected minutes of the whole case."
    exact: bool
    "Whether this is the saving of the best order; else the best order may save more."
    all_splits: bool
    "Whether every way to split the set was tried."


def missing_check(
    case: Case, solution: Solution, alike: Collection[str], minutes: float = MINUTES
) -> MissingCheck:
    """The check that would help most to tell hypotheses (ids) apart that have several remedies.

    Hypotheses of one remedy stay on one side: nothing is won by parting them. Where the case is
    small, each case with such a check is solved again. Otherwise the check is put into the known
    order once, where it saves most, and the rest of the order stays: a saving that is sure, though
    a new order may save more. Raises ValueError where the hypotheses have one remedy alone.

    >>> from generator.analysis.coverage.example import CASE
    >>> found = missing_check(CASE, solve(CASE), ["bent", "blunt", "burr"], minutes=0.5)
    >>> found.shows, found.others, found.exact
    (('burr',), ('bent', 'blunt'), True)
    """
    chosen = tuple(h for h in case.hypotheses if h.id in alike)
    remedies = tuple(dict.fromkeys(h.remedy.id for h in chosen))
    if len(remedies) < 2:
        raise ValueError("Hypotheses of one remedy need no telling apart.")
    small = len(case.hypotheses) <= SOLVED_AGAIN
    saving = _Solved(case, solution, minutes) if small else _PutIn(case, solution, minutes)
    splits = [tuple(h for h in chosen if h.remedy.id in side) for side in _sides(chosen, remedies)]
    saves, shows = max(((saving.of(s), s) for s in splits), key=lambda found: round(found[0], 9))
    return MissingCheck(
        shows=tuple(h.id for h in shows),
        others=tuple(h.id for h in chosen if h not in shows),
        saves_minutes=max(saves, 0.0),
        exact=small and solution.exact,
        all_splits=len(remedies) <= ALL_SPLITS,
    )


def _sides(chosen: Left, remedies: tuple[str, ...]) -> Iterator[frozenset[str]]:
    """Remedies whose hypotheses the check shows: fewest first, likeliest first."""
    weight = {r: fsum(h.share for h in chosen if h.remedy.id == r) for r in remedies}
    ranked = sorted(remedies, key=lambda r: (-weight[r], r))
    if len(ranked) <= ALL_SPLITS:
        for size in range(1, len(ranked)):
            yield from map(frozenset, combinations(ranked, size))
    else:
        first = ranked[:LIKELIEST]
        yield from (frozenset({r}) for r in first)
        yield from (frozenset(first[:size]) for size in range(2, min(len(first) + 1, len(ranked))))


class _Solved:
    """Savings by solving each case again."""

    def __init__(self, case: Case, solution: Solution, minutes: float) -> None:
        self._case, self._known, self._minutes = case, solution.expected_minutes, minutes

    def of(self, shows: Left) -> float:
        """Minutes by which the best order gets shorter."""
        sees = {h.id: int(h not in shows) for h in self._case.hypotheses}
        # A space stands in no record's id, so that the new check cannot be taken for another.
        added = Check("missing check", self._minutes, (), ("shown", "not shown"), sees)
        wider = replace(self._case, checks=(*self._case.checks, added))
        return self._known - solve(wider).expected_minutes


class _PutIn:
    """Savings by putting the check into the known order, once, where it saves most."""

    def __init__(self, case: Case, solution: Solution, minutes: float) -> None:
        self._case, self._policy, self._minutes = case, solution.policy, minutes
        self._run = PolicyRun(case)
        self._before: dict[int, float] = {}

    def of(self, shows: Left) -> float:
        """Minutes by which the known order gets shorter."""
        return max(self._at(shows, *stop) for stop in self._stops(shows[0]))

    def _stops(self, hypothesis: Hypothesis) -> Iterator[Stop]:
        return self._run.way_to(self._policy, self._case.hypotheses, hypothesis.id)

    def _at(self, shows: Left, node: Node, left: Left, opened: frozenset[str]) -> float:
        shown = tuple(h for h in left if h in shows)
        rest = tuple(h for h in left if h not in shows)
        if id(node) not in self._before:
            self._before[id(node)] = self._run.minutes(node, left, opened)
        after = fsum(self._run.minutes(node, side, opened) for side in (shown, rest))
        return self._before[id(node)] - after - self._minutes * fsum(h.share for h in left)
