"""The next step under doubt, by a formula that a few lines of JavaScript repeat."""

from __future__ import annotations

from collections.abc import Iterator
from math import floor, fsum
from typing import NamedTuple

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import (
    Standing,
    allowed_checks,
    allowed_remedies,
    must_check,
)
from generator.analysis.doubt.table import Table

GRAIN = 1e6
"Scores are compared in millionths of a minute, so that rounding decides nothing."
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
    share = now.share
    if share <= 0:
        return []
    if must_check(table, now):
        return [_check_step(table, now, share, number) for number in allowed_checks(table, now)]
    return sorted([*_steps(table, now, share), _stop(table)], key=_order)


def next_move(table: Table, now: Standing) -> Move:
    """The first of the next steps: a rule that makes a policy."""
    if must_check(table, now):
        return Move("check", allowed_checks(table, now)[0])
    return min([*_steps(table, now, now.share), _stop(table)], key=_order).move


def _stop(table: Table) -> NextStep:
    worth = table.doubt.cures * (table.doubt.stop_minutes + table.doubt.come_back_minutes)
    return NextStep(STOP, "", table.doubt.stop_minutes, worth)


def _order(step: NextStep) -> tuple[int, int, int, str]:
    grains = floor(step.score * GRAIN + 0.5), floor(step.minutes * GRAIN + 0.5)
    return *grains, ("remedy", "check", "stop").index(step.move.kind), step.id


def _steps(table: Table, now: Standing, share: float) -> Iterator[NextStep]:
    costs, weights = table.remedy_costs(now.open_parts), now.weights
    for number in allowed_remedies(table, now):
        chance = fsum([weights[c] for c in table.causes[number]]) / share
        if chance:
            minutes = costs[number]
            yield NextStep(Move("remedy", number), table.remedies[number].id, minutes, minutes / chance)
    for number in allowed_checks(table, now):
        step = _check_step(table, now, share, number)
        if step.score < INFINITE:
            yield step


def _check_step(table: Table, now: Standing, share: float, number: int) -> NextStep:
    """A check, for the weight of the causes still to be mended that it tells from a sound machine."""
    minutes, weights = table.check_costs(now.open_parts)[number], now.weights
    chance = fsum([weights[c] for c in table.telling(now.tried)[number]]) / share
    return NextStep(Move("check", number), table.checks[number].id, minutes, minutes / chance if chance else INFINITE)
