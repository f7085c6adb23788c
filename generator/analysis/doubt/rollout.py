"""A better rule from the next step: follow the few best steps as far as jobs come, take the best.

One round of policy improvement by roll-out (Bertsekas, Tsitsiklis and Wu, Rollout algorithms for
combinatorial optimization, 1997): its policy is no worse than the rule it starts from, but for what
the estimate below `FOLLOWED` gets wrong.
"""

from __future__ import annotations

from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.next_step import Step, at_least, next_steps
from generator.analysis.doubt.standing import Standing, not_cured, seen, stop_cost
from generator.analysis.doubt.table import Table

LOOK = 4
"Steps followed from a standing."
IMPROVED = 0.05
"Share of the jobs from which a standing is worth the look; below it the next step is taken."
FOLLOWED = 0.02
"Share of the jobs down to which the next step is followed; below it a quick estimate stands."


class Rollout:
    """Moves by following the best few of the next steps; everything reckoned is remembered."""

    def __init__(self, table: Table) -> None:
        self._table = table
        self._steps: dict[Standing, list[Step]] = {}
        self._values: dict[Standing, float] = {}

    def move(self, table: Table, now: Standing) -> Move:
        """A rule that makes a policy."""
        steps = self._next(now)
        if now.share < IMPROVED:
            return steps[0].move
        return min(steps[:LOOK], key=lambda step: self._total(now, step)).move

    def estimate(self, table: Table, now: Standing) -> float:
        """Minutes (times share) from where few jobs come, by the next step's score."""
        return self._next(now)[0].score * now.share

    def _next(self, now: Standing) -> list[Step]:
        found = self._steps.get(now)
        if found is None:
            found = self._steps[now] = next_steps(self._table, now)
        return found

    def _total(self, now: Standing, step: Step) -> float:
        return step.minutes * now.share + sum(self._value(then) for then in self._then(now, step.move))

    def _value(self, now: Standing) -> float:
        """Minutes (times share) when the first of the next steps is always taken."""
        found = self._values.get(now)
        if found is None:
            few = 0 < now.share < FOLLOWED
            found = self._values[now] = at_least(self._table, now) if few else self._follow(now)
        return found

    def _follow(self, now: Standing) -> float:
        if now.share <= 0:
            return 0.0
        step = self._next(now)[0]
        if step.move == STOP:
            return stop_cost(self._table, now)
        return self._total(now, step)

    def _then(self, now: Standing, move: Move) -> list[Standing]:
        if move.kind == "stop":
            return []
        if move.kind == "remedy":
            return [not_cured(self._table, now, move.number)]
        return [seen(self._table, now, move.number, o) for o in self._table.checks[move.number].outcomes]
