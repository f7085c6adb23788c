"""The next step under doubt, by a formula that a few lines of JavaScript repeat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor

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

GRAIN = 1e6
"Scores are compared in millionths of a minute, so that rounding decides nothing."
INFINITE = float("inf")


@dataclass(frozen=True, slots=True)
class NextStep:
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
        return [_check_step(table, now, number) for number in allowed_checks(table, now)]
    return sorted([*_steps(table, now), _stop(table)], key=_order)


def next_move(table: Table, now: Standing) -> Move:
    """The first of the next steps: a rule that makes a policy."""
    if must_check(table, now):
        return Move("check", allowed_checks(table, now)[0])
    return min([*_steps(table, now), _stop(table)], key=_order).move


def _stop(table: Table) -> NextStep:
    worth = table.doubt.cures * (table.doubt.stop_minutes + table.doubt.come_back_minutes)
    return NextStep(STOP, "", table.doubt.stop_minutes, worth)


def _order(step: NextStep) -> tuple[int, int, int, str]:
    grains = floor(step.score * GRAIN + 0.5), floor(step.minutes * GRAIN + 0.5)
    return *grains, ("remedy", "check", "stop").index(step.move.kind), step.id


def _steps(table: Table, now: Standing) -> Iterator[NextStep]:
    for number in allowed_remedies(table, now):
        remedy = table.remedies[number]
        minutes = remedy_minutes(table, now, remedy)
        chance = sum([now.weights[c] for c in remedy.causes]) / now.share
        if chance:
            yield NextStep(Move("remedy", number), remedy.id, minutes, minutes / chance)
    for number in allowed_checks(table, now):
        step = _check_step(table, now, number)
        if step.score < INFINITE:
            yield step


def _check_step(table: Table, now: Standing, number: int) -> NextStep:
    check = table.checks[number]
    minutes = check_minutes(table, now, check)
    chance = _sign(table, now, check) / now.share
    return NextStep(Move("check", number), check.id, minutes, minutes / chance if chance else INFINITE)


def _sign(table: Table, now: Standing, check: CheckRow) -> float:
    """Weight of the causes still to be mended that the check tells from a sound machine."""
    return sum([now.weights[c] for c in check.tells if not now.tried >> table.remedy_of[c] & 1])
