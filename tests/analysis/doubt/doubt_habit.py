"""A careful reader's habit, to compare the best order with."""

from __future__ import annotations

from generator.analysis.doubt.grow import Move
from generator.analysis.doubt.rows import CheckRow
from generator.analysis.doubt.rules import last_resort
from generator.analysis.doubt.standing import Standing, allowed_checks, allowed_remedies, check_minutes, must_check
from generator.analysis.doubt.table import Table


def likeliest_first(table: Table, now: Standing) -> Move:
    """Look for the likeliest cause's sign; once it is seen, put it right."""
    causes = sorted(range(table.unlisted), key=lambda c: (-now.weights[c], c))
    if must_check(table, now):
        return Move("check", allowed_checks(table, now)[0])
    allowed = set(allowed_remedies(table, now))
    for cause in causes:
        if now.weights[cause] * table.saved <= table.doubt.stop_minutes * now.share:
            break
        remedy = table.remedy_of[cause]
        signs = [n for n in allowed_checks(table, now) if _shows(table.checks[n], cause)]
        if remedy in allowed and (now.proved >> remedy & 1 or not signs):
            return Move("remedy", remedy)
        if signs and not now.tried >> remedy & 1:
            return Move("check", min(signs, key=lambda n: (check_minutes(table, now, table.checks[n]), n)))
    return last_resort(table, now)


def _shows(check: CheckRow, cause: int) -> bool:
    return check.sees[cause] != check.sound
