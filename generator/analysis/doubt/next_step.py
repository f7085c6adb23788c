"""The next step under doubt, by a formula that a few lines of JavaScript repeat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
    stop_cost,
)
from generator.analysis.doubt.table import Groups, Table

WAITING = 0.25
"""Part of the waiting for other remedies that checks do not save. An estimate: on the bench's own
complaints a quarter did better than a half, and a half better than the whole."""
GRAIN = 1e6
"Scores are compared in millionths of a minute, so that rounding decides nothing."
INFINITE = float("inf")


@dataclass(frozen=True, slots=True)
class Step:
    """A step that may come next."""

    move: Move
    id: str
    "Of the check or remedy; empty for stopping to think."
    minutes: float
    "The step from here, its opening included."
    score: float
    "Estimated minutes until the job is done if this comes next."


def next_steps(table: Table, now: Standing) -> list[Step]:
    """Every step that may come next and tells or mends anything, the one of the least score first.

    The formula. W are the weights of the causes, the unlisted one the last; M is their sum.

    - after(W, ...), from what is open, done and proved: each remedy that is not done yet has p, the
      sum of the weights that it cures, and c, its minutes from here. A remedy that wants proof and
      has none adds the minutes from here of the cheapest check not done that can prove it; with no
      such check it is out. Remedies in the order of c / p, the least first, ties in the order of
      the case. From M, which falls by k p at each, k the probability that a remedy cures: a remedy
      takes c (p + 0.25 (M - p)) minutes and saves k p times (stopping + coming back); those that
      save more than they take are added up, the others passed over. Then M times stopping, and the
      listed part of it times coming back.
    - A remedy's score: its minutes + after / M, with the weights that it cures times (1 - k).
    - A check's score: its minutes + the sum over outcomes of after / M, as if causes showed what
      they show without fail: each outcome leaves the causes that show it, those that it cures gone.
    - Stopping: minutes of stopping + listed part times coming back.
    - Order: score, then minutes, then remedies before checks before stopping, then id.
    """
    if now.share <= 0:
        return []
    ahead = _Ahead(table, now, WAITING)
    steps = [*_remedy_steps(table, now, ahead), *_check_steps(table, now, ahead)]
    if not must_check(table, now):
        minutes = stop_cost(table, now) / now.share
        steps.append(Step(STOP, "", minutes, minutes))
    return sorted(steps, key=_order)


def next_move(table: Table, now: Standing) -> Move:
    """The step of the least score: a rule that makes a policy."""
    return next_steps(table, now)[0].move


def _order(step: Step) -> tuple[float, float, int, str]:
    kinds = ("remedy", "check", "stop")
    return floor(step.score * GRAIN + 0.5), floor(step.minutes * GRAIN + 0.5), kinds.index(step.move.kind), step.id


def _remedy_steps(table: Table, now: Standing, ahead: _Ahead) -> Iterator[Step]:
    share, curable = now.share, _curable(now.weights, table.cures)
    for number in allowed_remedies(table, now):
        remedy, p = table.remedies[number], curable[number][1]
        if p:
            minutes = remedy_minutes(table, now, remedy)
            left = list(curable)
            left[number] = number, p * (1 - table.doubt.cures)
            opened, tried = now.open_parts | remedy.parts, now.tried | 1 << number
            then = ahead.minutes(left, now.weights[-1], opened, now.checked, tried, now.proved)
            yield Step(Move("remedy", number), remedy.id, minutes, minutes + then / share)


def _check_steps(table: Table, now: Standing, ahead: _Ahead) -> Iterator[Step]:
    share = now.share
    for number in allowed_checks(table, now):
        check = table.checks[number]
        minutes = check_minutes(table, now, check)
        opened, checked, tried = now.open_parts | check.parts, now.checked | 1 << number, now.tried | check.does
        then = 0.0
        for outcome, groups in check.shown:
            left = _curable(now.weights, groups)
            unlisted = now.weights[-1] if outcome == check.sound else 0.0
            then += ahead.minutes(left, unlisted, opened, checked, tried, now.proved | check.proves[outcome])
        yield Step(Move("check", number), check.id, minutes, minutes + then / share)


def at_least(table: Table, now: Standing) -> float:
    """Minutes (times share) still to come, were no waiting for other remedies: quick and low."""
    ahead, curable = _Ahead(table, now, 0.0), _curable(now.weights, table.cures)
    return ahead.minutes(curable, now.weights[-1], now.open_parts, now.checked, now.tried, now.proved)


def _curable(weights: Sequence[float], groups: Groups) -> list[tuple[int, float]]:
    """Weight that each remedy would cure."""
    return [(remedy, sum([weights[c] for c in causes])) for remedy, causes in groups]


class _Ahead:
    """Estimates of what is still to come after each of the steps from one standing."""

    def __init__(self, table: Table, now: Standing, waiting: float) -> None:
        self._table, self._waiting = table, waiting
        self._proofs = _proof_minutes(table, now)

    def minutes(
        self, curable: list[tuple[int, float]], unlisted: float, opened: int, checked: int, tried: int, proved: int
    ) -> float:
        """Minutes (times share): remedies alone, then stopping to think."""
        doubt, costs = self._table.doubt, self._costs(opened, checked, proved)
        saved = doubt.cures * (doubt.stop_minutes + doubt.come_back_minutes)
        listed = sum([p for _, p in curable])
        rest, total = listed + unlisted, 0.0
        for _, remedy, p in sorted([(costs[r] / p, r, p) for r, p in curable if p and not tried >> r & 1]):
            takes = costs[remedy] * (p + self._waiting * (rest - p))
            if takes < saved * p:
                total += takes
                rest -= doubt.cures * p
                listed -= doubt.cures * p
        return total + rest * doubt.stop_minutes + listed * doubt.come_back_minutes

    def _costs(self, opened: int, checked: int, proved: int) -> Sequence[float]:
        """Minutes of every remedy with its proof; infinite where nothing is left that can prove it."""
        table = self._table
        costs = table.remedy_costs(opened)
        if not table.wanting & ~proved:
            return costs
        costs = list(costs)
        for number in table.wanting_numbers:
            if not proved >> number & 1:
                costs[number] += self._proofs[number] if table.remedies[number].proofs & ~checked else INFINITE
        return costs


def _proof_minutes(table: Table, now: Standing) -> list[float]:
    """By remedy: minutes from here of the cheapest check that can still prove it."""
    least = [INFINITE] * len(table.remedies)
    for number, check in enumerate(table.checks):
        if not now.checked >> number & 1:
            minutes = check_minutes(table, now, check)
            for remedy in check.can_prove:
                least[remedy] = min(least[remedy], minutes)
    return least
