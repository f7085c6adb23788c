"""What is still to come, by a quick estimate: where few jobs come, nothing is followed to its end."""

from __future__ import annotations

from generator.analysis.doubt.standing import Standing
from generator.analysis.doubt.table import Table

WAITING = 0.15
"""Part of the waiting for other remedies that checks do not save. An estimate: with it, orders of the
bench's own complaints take the same minutes whether followed to one job in 300 or in 10,000."""


def outlook(table: Table, now: Standing) -> float:
    """Minutes (times share) still to come, if remedies alone followed, and then stopping to think.

    Remedies not done yet in the order of chance over minutes, those that want a proof with the
    cheapest check that can still give it. Each that saves more than it takes is added up. Where power
    may not go on, only what mends the fault that was found.
    """
    doubt, rest, saved = table.doubt, now.share, table.saved
    cures, listed, total = doubt.cures, rest - now.weights[table.unlisted], 0.0
    for _, p, c in _chances(table, now):
        takes = c * (p + WAITING * (rest - p))
        if takes < saved * p:
            total += takes
            rest -= cures * p
            listed -= cures * p
    return total + rest * doubt.stop_minutes + listed * doubt.come_back_minutes


def _chances(table: Table, now: Standing) -> list[tuple[float, float, float]]:
    """Of every remedy that may be worth it: minutes over chance, chance, minutes; the least first."""
    chances, mends, left = table.chances(now.weights), now.unsafe(), table.every >> len(table.checks) & ~now.tried
    left = left if mends is None else left & mends
    mending = table.mending(now.open_parts, left, left & table.unproved & ~now.proved, table.proofs & ~now.checked)
    found = [(c / p, p, c) for c, place in mending if (p := chances[place])]
    found.sort()
    return found
