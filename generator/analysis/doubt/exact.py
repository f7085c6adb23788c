"""The least expected minutes under doubt: AND-OR branch and bound over what was seen and done."""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from generator.analysis.doubt.grow import NOTHING, STOP, Move
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.standing import (
    Standing,
    allowed_checks,
    allowed_remedies,
    check_minutes,
    must_check,
    not_cured,
    remedy_minutes,
    seen_each,
    stop_cost,
)
from generator.analysis.doubt.table import Table

NEGLIGIBLE = 1e-11
"Minutes below which two policies count as equal, so that rounding decides nothing."


DIGITS = 14
"Of a weight, as it is remembered: readings in another order multiply to the same but for rounding."
Key = tuple[tuple[float, ...], int, int, int, int, tuple[int, ...]]


class OutOfBudget(Exception):
    """The stated number of standings has been expanded."""


class Search:
    """Depth-first search with the bound of known causes; every standing's least minutes remembered."""

    def __init__(self, table: Table, budget: int) -> None:
        self._table, self._budget = table, budget
        self._bound = KnownCause(table).bound
        self._least: dict[Key, tuple[float, Move]] = {}
        self.expanded = 0

    def run(self, now: Standing) -> bool:
        """Search from a standing; whether it came to its end within the budget."""
        try:
            self.least(now)
        except OutOfBudget:
            return False
        return True

    def move(self, table: Table, now: Standing) -> Move:
        """What the best policy does: a rule, once the search has come to its end."""
        return self.least(now)[1]

    def least(self, now: Standing) -> tuple[float, Move]:
        """The least minutes (times share) from here, and the move that comes to it."""
        key = _key(now)
        found = self._least.get(key)
        if found is None:
            if self.expanded >= self._budget:
                raise OutOfBudget
            self.expanded += 1
            found = self._least[key] = self._search(now)
        return found

    def _search(self, now: Standing) -> tuple[float, Move]:
        best, chosen = float("inf"), STOP
        if not must_check(self._table, now):
            best = stop_cost(self._table, now)
        for floor, cost, move, then in sorted(self._moves(now), key=_by_floor):
            if floor >= best - NEGLIGIBLE:
                break
            total = self._total(cost, then, best)
            if total < best - NEGLIGIBLE:
                best, chosen = total, move
        return best, chosen

    def _total(self, cost: float, then: list[Standing], limit: float) -> float:
        """The minutes of a move; only a lower bound where they are above the limit."""
        bounds = [self._bound(standing) for standing in then]
        total = cost + fsum(bounds)
        for standing, bound in zip(then, bounds, strict=True):
            if total >= limit - NEGLIGIBLE:
                break
            total += self.least(standing)[0] - bound
        return total

    def _moves(self, now: Standing) -> Iterator[tuple[float, float, Move, list[Standing]]]:
        share = now.share
        for move, minutes, then in self._steps(now):
            then = [standing for standing in then if standing.share > NOTHING]
            cost = minutes * share
            yield cost + fsum(map(self._bound, then)), cost, move, then

    def _steps(self, now: Standing) -> Iterator[tuple[Move, float, list[Standing]]]:
        table = self._table
        for number in allowed_remedies(table, now):
            minutes = remedy_minutes(table, now, table.remedies[number])
            yield Move("remedy", number), minutes, [not_cured(table, now, number)]
        for number in allowed_checks(table, now):
            check = table.checks[number]
            then = seen_each(table, now, number, check.outcomes)
            yield Move("check", number), check_minutes(table, now, check), then


def _key(now: Standing) -> Key:
    weights = tuple([round(w, DIGITS) for w in now.weights])
    return weights, now.open_parts, now.checked, now.tried, now.proved, now.faults


def _by_floor(found: tuple[float, float, Move, list[Standing]]) -> tuple[float, float, Move]:
    return found[:3]
