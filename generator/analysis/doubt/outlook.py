"""What is still to come, by a quick estimate: where few jobs come, nothing is followed to its end."""

from __future__ import annotations

from math import fsum

from generator.analysis.doubt.standing import Standing
from generator.analysis.doubt.table import Table

WAITING = 0.15
"""Part of the waiting for other remedies that checks do not save. An estimate: with it, orders of the
bench's own complaints take the same minutes whether followed to one job in 300 or in 10,000."""
INFINITE = float("inf")


def outlook(table: Table, now: Standing) -> float:
    """Minutes (times share) still to come, if remedies alone followed, and then stopping to think.

    Remedies not done yet in the order of chance over minutes, those that want a proof with the
    cheapest check that can still give it. Each that saves more than it takes is added up. Where power
    may not go on, only what mends the fault that was found.
    """
    doubt, costs = table.doubt, _costs(table, now)
    saved = doubt.cures * (doubt.stop_minutes + doubt.come_back_minutes)
    rest = now.share
    listed, total = rest - now.weights[table.unlisted], 0.0
    for _, p, c in sorted(_chances(table, now, costs)):
        takes = c * (p + WAITING * (rest - p))
        if takes < saved * p:
            total += takes
            rest -= doubt.cures * p
            listed -= doubt.cures * p
    return total + rest * doubt.stop_minutes + listed * doubt.come_back_minutes


def _chances(table: Table, now: Standing, costs: list[float]) -> list[tuple[float, float, float]]:
    weights, tried, mends = now.weights, now.tried, now.unsafe()
    open_ones = (n for n in range(len(table.causes)) if not tried >> n & 1 and (mends is None or mends >> n & 1))
    found = [(fsum([weights[c] for c in table.causes[n]]), costs[n]) for n in open_ones]
    return [(c / p, p, c) for p, c in found if p]


def _costs(table: Table, now: Standing) -> list[float]:
    """Minutes of every remedy with its proof; infinite where nothing is left that can prove it."""
    costs, checks = list(table.remedy_costs(now.open_parts)), table.check_costs(now.open_parts)
    for number in table.wanting:
        if not now.proved >> number & 1:
            left = [checks[n] for n in table.remedies[number].proofs if not now.checked >> n & 1]
            costs[number] += min(left, default=INFINITE)
    return costs
