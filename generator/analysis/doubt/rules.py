"""Plain ways of working under doubt, for comparison with the best order."""

from __future__ import annotations

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import (
    Standing,
    allowed_checks,
    allowed_remedies,
    check_minutes,
    must_check,
    remedy_minutes,
)
from generator.analysis.doubt.table import CheckRow, Table

LIKELY = 0.5
"Share from which the plain rules put a cause right without looking further."


def record_order(table: Table, now: Standing) -> Move:
    """Checks as they stand in the record; a remedy as soon as it is likelier than not."""
    return _likely_remedy(table, now) or _first(allowed_checks(table, now)) or _last_resort(table, now)


def likeliest_first(table: Table, now: Standing) -> Move:
    """A careful reader's habit: look for the likeliest cause's sign; once it is seen, put it right."""
    causes = sorted(range(table.unlisted), key=lambda c: (-now.weights[c], c))
    if must_check(table, now):
        return Move("check", allowed_checks(table, now)[0])
    allowed = set(allowed_remedies(table, now))
    for cause in causes:
        if now.weights[cause] * _saved(table) <= table.doubt.stop_minutes * now.share:
            break
        remedy = table.remedy_of[cause]
        signs = [n for n in allowed_checks(table, now) if _shows(table.checks[n], cause)]
        if remedy in allowed and (now.proved >> remedy & 1 or not signs):
            return Move("remedy", remedy)
        if signs and not now.tried >> remedy & 1:
            return Move("check", min(signs, key=lambda n: (check_minutes(table, now, table.checks[n]), n)))
    return _last_resort(table, now)


def _likely_remedy(table: Table, now: Standing) -> Move | None:
    share = now.share
    likely = [n for n in allowed_remedies(table, now) if _cured(table, now, n) > LIKELY * share]
    return Move("remedy", likely[0]) if likely else None


def _last_resort(table: Table, now: Standing) -> Move:
    """The remedy with the most to save for its minutes, or stopping to think."""
    share = now.share
    worth = [
        (remedy_minutes(table, now, table.remedies[n]) / p, n)
        for n in allowed_remedies(table, now)
        if (p := _cured(table, now, n) / share) and p * _saved(table) > remedy_minutes(table, now, table.remedies[n])
    ]
    return Move("remedy", min(worth)[1]) if worth else STOP


def _first(numbers: list[int]) -> Move | None:
    return Move("check", numbers[0]) if numbers else None


def _saved(table: Table) -> float:
    return table.doubt.cures * (table.doubt.stop_minutes + table.doubt.come_back_minutes)


def _cured(table: Table, now: Standing, number: int) -> float:
    return sum(now.weights[c] for c in table.remedies[number].causes)


def _shows(check: CheckRow, cause: int) -> bool:
    return check.sees[cause] != check.sound
