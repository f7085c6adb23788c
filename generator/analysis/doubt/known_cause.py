"""A lower bound: the minutes that each cause would take at least, were it known from the start.

A policy that knows the cause can do whatever one that does not know it does. So the sum over causes
of weight times the least minutes with that cause known is never above the minutes of any policy
(the bound of perfect information). With the cause known, something that ends the job comes first,
or one stops. After something that failed, what follows is either a stop or another that may end it.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from generator.analysis.doubt.standing import Standing
from generator.analysis.doubt.table import Table

Ender = tuple[float, float, float]
"Minutes from here, minutes had everything been open, probability that it ends the job."


class KnownCause:
    """Lower bounds from any standing of a table."""

    def __init__(self, table: Table) -> None:
        self._table = table
        self._known: dict[tuple[int, int, int, int], tuple[float, ...]] = {}

    def bound(self, now: Standing) -> float:
        """Minutes (times share) that no policy from here can go below."""
        key = now.open_parts, now.checked, now.tried, now.proved
        minutes = self._known.get(key)
        if minutes is None:
            minutes = self._known[key] = tuple(self._minutes(now))
        return fsum([w * m for w, m in zip(now.weights, minutes, strict=True)])

    def _minutes(self, now: Standing) -> Iterator[float]:
        doubt = self._table.doubt
        stop = doubt.stop_minutes + doubt.come_back_minutes
        for cause in range(self._table.unlisted):
            yield _least(list(self._enders(now, cause)), stop)
        yield doubt.stop_minutes

    def _enders(self, now: Standing, cause: int) -> Iterator[Ender]:
        table, number = self._table, self._table.remedy_of[cause]
        remedy = table.remedies[number]
        proof = self._proof(now, number)
        if not now.tried >> number & 1 and proof is not None:
            opening = table.opening(remedy.parts & ~now.open_parts)
            yield remedy.minutes + proof + opening, remedy.minutes + proof, table.doubt.cures
        for n, check in enumerate(table.checks):
            if check.sees[cause] in check.cured and not now.checked >> n & 1:
                opening = table.opening(check.parts & ~now.open_parts)
                yield check.minutes + opening, check.minutes, check.chances[check.sees[cause]][cause]

    def _proof(self, now: Standing, number: int) -> float | None:
        """The least minutes of what can still prove a remedy; None where nothing can."""
        remedy = self._table.remedies[number]
        if not remedy.needs_proof or now.proved >> number & 1:
            return 0.0
        checks = self._table.checks
        return min((checks[n].minutes for n in remedy.proofs if not now.checked >> n & 1), default=None)


def _least(enders: list[Ender], stop: float) -> float:
    best = stop
    for one, (minutes, _, ends) in enumerate(enders):
        others = [bare for other, (_, bare, _) in enumerate(enders) if other != one]
        best = min(best, minutes + (1 - ends) * min([stop, *others]))
    return best
