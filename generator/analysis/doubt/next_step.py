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
    not_cured,
    remedy_minutes,
    stop_cost,
)
from generator.analysis.doubt.table import CheckRow, RemedyRow, Table

WAITING = 0.5
"Part of the waiting for other remedies that checks do not save. An estimate: see `rules`."
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


def next_steps(table: Table, now: Standing, waiting: float = WAITING) -> list[Step]:
    """Every step that may come next and tells or mends anything, the one of the least score first.

    The formula. W are the weights of the causes, the unlisted one the last; M is their sum.

    - after(W, ...), from what is open, done and proved: each remedy that is not done yet has p, the
      sum of the weights that it cures, and c, its minutes from here. A remedy that wants proof and
      has none adds the minutes from here of the cheapest check not done that can prove it; with no
      such check it is out. Remedies in the order of c / p, the least first, ties in the order of
      the case. From M, which falls by k p at each, k the probability that a remedy cures: a remedy
      takes c (p + 0.5 (M - p)) minutes and saves k p times (stopping + coming back); those that
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
    steps = [*_remedy_steps(table, now, waiting), *_check_steps(table, now, waiting)]
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


def _remedy_steps(table: Table, now: Standing, waiting: float) -> Iterator[Step]:
    share = now.share
    for number in allowed_remedies(table, now):
        remedy = table.remedies[number]
        if any(now.weights[c] for c in remedy.causes):
            minutes = remedy_minutes(table, now, remedy)
            score = minutes + after(table, not_cured(table, now, number), waiting) / share
            yield Step(Move("remedy", number), remedy.id, minutes, score)


def _check_steps(table: Table, now: Standing, waiting: float) -> Iterator[Step]:
    share = now.share
    for number in allowed_checks(table, now):
        check = table.checks[number]
        minutes = check_minutes(table, now, check)
        opened, checked, tried = now.open_parts | check.parts, now.checked | 1 << number, now.tried | check.does
        then = 0.0
        for outcome, (curable, rest, listed) in sorted(_shown(table, check, now).items()):
            costs = _costs(table, opened, checked, now.proved | check.proves[outcome])
            then += _ahead(table, curable, rest, listed, costs, tried, waiting)
        yield Step(Move("check", number), check.id, minutes, minutes + then / share)


Left = tuple[dict[int, float], float, float]
"Weight that each remedy would cure, of all causes, and of the listed ones."


def _shown(table: Table, check: CheckRow, now: Standing) -> dict[int, Left]:
    """What each outcome would leave if causes showed what they show without fail."""
    curable: dict[int, dict[int, float]] = {}
    listed: dict[int, float] = {}
    for cause, weight in enumerate(now.weights[:-1]):
        outcome, remedy = check.sees[cause], table.remedy_of[cause]
        by_remedy = curable.setdefault(outcome, {})
        by_remedy[remedy] = by_remedy.get(remedy, 0.0) + weight
        listed[outcome] = listed.get(outcome, 0.0) + weight
    curable.setdefault(check.sound, {})
    unlisted = {check.sound: now.weights[-1]}
    whole = {n: listed.get(n, 0.0) for n in curable if n not in check.cured}
    return {n: (curable[n], of + unlisted.get(n, 0.0), of) for n, of in whole.items()}


def after(table: Table, now: Standing, waiting: float = WAITING) -> float:
    """Minutes (times share) still to come, as estimated: remedies alone, then stopping to think."""
    curable: dict[int, float] = {}
    for remedy, weight in zip(table.remedy_of, now.weights):
        curable[remedy] = curable.get(remedy, 0.0) + weight
    listed = sum(now.weights[:-1])
    costs = _costs(table, now.open_parts, now.checked, now.proved)
    return _ahead(table, curable, listed + now.weights[-1], listed, costs, now.tried, waiting)


def _ahead(
    table: Table,
    curable: dict[int, float],
    rest: float,
    listed: float,
    costs: list[float],
    tried: int,
    waiting: float,
) -> float:
    doubt = table.doubt
    saved = doubt.cures * (doubt.stop_minutes + doubt.come_back_minutes)
    ratios = [(costs[r] / p, r, p) for r, p in curable.items() if p and not tried >> r & 1]
    ratios.sort()
    total = 0.0
    for _, remedy, p in ratios:
        takes = costs[remedy] * (p + waiting * (rest - p))
        if takes < saved * p:
            total += takes
            rest -= doubt.cures * p
            listed -= doubt.cures * p
    return total + rest * doubt.stop_minutes + listed * doubt.come_back_minutes


def _costs(table: Table, open_parts: int, checked: int, proved: int) -> list[float]:
    """Minutes of every remedy, with the cheapest proof where it wants one that it has not."""
    costs = table.remedy_costs(open_parts)
    if not table.wanting & ~proved:
        return costs
    costs = list(costs)
    for number in table.wanting_numbers:
        if not proved >> number & 1:
            costs[number] += _proof_minutes(table, table.remedies[number], open_parts, checked)
    return costs


def _proof_minutes(table: Table, remedy: RemedyRow, open_parts: int, checked: int) -> float:
    """Of the cheapest check that can still prove a remedy; infinite where there is none."""
    least = INFINITE
    for number in remedy.proofs:
        if not checked >> number & 1:
            check = table.checks[number]
            least = min(least, check.minutes + table.opening(check.parts & ~open_parts))
    return least
