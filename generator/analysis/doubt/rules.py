"""A plain way of working under doubt, for comparison with the best order."""

from __future__ import annotations

from math import fsum

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import (
    Standing,
    allowed_checks,
    allowed_remedies,
    remedy_minutes,
)
from generator.analysis.doubt.table import Table

LIKELY = 0.5
"Share from which the plain way puts a cause right without looking further."


def record_order(table: Table, now: Standing) -> Move:
    """Checks as they stand in the record; a remedy as soon as it is likelier than not."""
    return _likely_remedy(table, now) or _first(allowed_checks(table, now)) or last_resort(table, now)


def _likely_remedy(table: Table, now: Standing) -> Move | None:
    share = now.share
    likely = (n for n in allowed_remedies(table, now) if _cured(table, now, n) > LIKELY * share)
    return next((Move("remedy", n) for n in likely), None)


def last_resort(table: Table, now: Standing) -> Move:
    """The remedy with the most to save for its minutes, or stopping to think."""
    share = now.share
    worth = [
        (remedy_minutes(table, now, table.remedies[n]) / p, n)
        for n in allowed_remedies(table, now)
        if (p := _cured(table, now, n) / share) and p * table.saved > remedy_minutes(table, now, table.remedies[n])
    ]
    return Move("remedy", min(worth)[1]) if worth else STOP


def _first(numbers: list[int]) -> Move | None:
    return Move("check", numbers[0]) if numbers else None


def _cured(table: Table, now: Standing, number: int) -> float:
    return fsum(table.cured[number](now.weights))
