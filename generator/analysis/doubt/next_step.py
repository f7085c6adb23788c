"""The next step under doubt, by a formula that a few lines of JavaScript repeat."""

from __future__ import annotations

from math import floor, fsum
from typing import NamedTuple

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import (
    Standing,
    allowed,
    allowed_checks,
    must_check,
)
from generator.analysis.doubt.table import Table

GRAIN = 1e6
"Scores are compared in millionths of a minute, so that rounding decides nothing."
TIE = 2 / GRAIN
"Minutes by which scores may differ and still be the same in grains, with room for rounding."
INFINITE = float("inf")


class NextStep(NamedTuple):
    """A step that may come next."""

    move: Move
    id: str
    "Of the check or remedy; empty for stopping to think."
    minutes: float
    "The step from here, its opening included."
    score: float
    "Minutes for each whole chance: those of the step, over its chance to cure or to show a sign."


def next_steps(table: Table, now: Standing) -> list[NextStep]:
    """Every step that may come next and has a chance, the one of the least score first.

    The formula: most chance for its minutes. M is the sum of the weights, the unlisted cause's
    among them. The chance p of a remedy is the sum of the weights that it cures over M; that of a
    check the same over the causes that show something else there than a sound machine does, or that
    what must wait for the check tells or mends, but for those whose remedy is done. The score of a
    step of m minutes from here, its opening included, is m / p; that of stopping to think is
    k (stopping + coming back), k the probability that a remedy cures: what a whole chance is worth.
    Order: score, then m, then remedies before checks before stopping, then id. A check that must
    come before all else is the only step.

    Probability over cost is the best rule there is for independent remedies (Kadane and Simon,
    Optimal strategies for a class of constrained sequential problems, 1977); here it is a good one.
    """
    if now.share <= 0:
        return []
    if must_check(table, now):
        return [_first(table, now, number) for number in allowed_checks(table, now)]
    return sorted(_steps(table, now, INFINITE), key=_order)


def next_move(table: Table, now: Standing) -> Move:
    """The first of the next steps: a rule that makes a policy."""
    if must_check(table, now):
        return Move("check", allowed_checks(table, now)[0])
    return min(_steps(table, now, TIE), key=_order).move


def _stop(table: Table) -> NextStep:
    return NextStep(STOP, "", table.doubt.stop_minutes, table.saved)


def _order(step: NextStep) -> tuple[int, int, int, str]:
    grains = floor(step.score * GRAIN + 0.5), floor(step.minutes * GRAIN + 0.5)
    return *grains, ("remedy", "check", "stop").index(step.move.kind), step.id


def _steps(table: Table, now: Standing, behind: float) -> list[NextStep]:
    """Steps of a chance whose scores are no more than `behind` the least, and stopping if its is not."""
    weights, share, may = now.weights, now.share, allowed(table, now)
    stop = _stop(table)
    found, most = [(stop.score, stop.minutes, 0)], stop.score + behind
    for minutes, told, bit in table.steps(now.open_parts, now.tried):
        if minutes > most:
            break  # no chance is above 1, so that neither this nor a dearer step has a score below its minutes
        if may & bit and (chance := fsum(told(weights)) / share) and (score := minutes / chance) <= most:
            found.append((score, minutes, bit))
            most = min(most, score + behind)
    return [_named(table, *step) for step in found if step[0] <= most]


def _named(table: Table, score: float, minutes: float, bit: int) -> NextStep:
    if not bit:
        return _stop(table)
    number, checks = bit.bit_length() - 1, len(table.checks)
    if number < checks:
        return NextStep(Move("check", number), table.checks[number].id, minutes, score)
    return NextStep(Move("remedy", number - checks), table.remedies[number - checks].id, minutes, score)


def _first(table: Table, now: Standing, number: int) -> NextStep:
    """A check that comes before all else, whatever its chance."""
    minutes, weights = table.check_costs(now.open_parts)[number], now.weights
    chance = fsum([weights[c] for c in table.telling(now.tried)[number]]) / now.share
    return NextStep(Move("check", number), table.checks[number].id, minutes, minutes / chance if chance else INFINITE)
