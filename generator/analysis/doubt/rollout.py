"""A better rule from the next step: follow the few best steps as far as jobs come, take the best.

One round of policy improvement by roll-out (Bertsekas, Tsitsiklis and Wu, Rollout algorithms for
combinatorial optimization, 1997): its policy is no worse than the rule it starts from, but for what
the estimate below `FOLLOWED` gets wrong.
"""

from __future__ import annotations

from math import fsum

from generator.analysis.doubt.grow import DIGITS, STOP, Move
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.standing import (
    Standing,
    check_minutes,
    must_check,
    not_cured,
    remedy_minutes,
    seen_each,
    stop_cost,
)
from generator.analysis.doubt.table import Table

LOOK = 6
"Steps followed from a standing, beside stopping."
IMPROVED = 0.02
"Share of the jobs from which a standing is worth the look; below it the next step is taken."
FOLLOWED = 0.01
"Share of the jobs down to which the next step is followed; below it the outlook stands."


class Rollout:
    """Moves by following the best few of the next steps; everything reckoned is remembered."""

    def __init__(self, table: Table) -> None:
        self._table = table
        self._moves: dict[Standing, list[Move]] = {}
        self.tied = False
        "Whether moves that take the same were met: without any, `last_move` is `move`."
        self._values: dict[Standing, float] = {}

    def move(self, table: Table, now: Standing) -> Move:
        """A rule that makes a policy; of moves that take the same, the first of the next steps."""
        return next_move(table, now) if now.share < IMPROVED else self._best(now)[0]

    def last_move(self, table: Table, now: Standing) -> Move:
        """The same rule; of moves that take the same, the last of the next steps. What they lead on to may differ."""
        return next_move(table, now) if now.share < IMPROVED else self._best(now)[-1]

    def _best(self, now: Standing) -> list[Move]:
        """The moves that take the least, in the order of the next steps."""
        found = self._moves.get(now)
        if found is None:
            found = self._moves[now] = self._looked(now)
            self.tied = self.tied or len(found) > 1
        return found

    def _looked(self, now: Standing) -> list[Move]:
        moves = [step.move for step in next_steps(self._table, now)[:LOOK]]
        if not must_check(self._table, now):
            moves.append(STOP)
        totals = [round(minutes, DIGITS) for minutes in (self._value(now), *[self._total(now, move) for move in moves[1:]])]
        least = min(totals)
        return [move for move, total in zip(moves, totals, strict=True) if total == least]

    def _total(self, now: Standing, move: Move) -> float:
        """Minutes (times share) of a move, and of the first of the next steps from there on."""
        table, number = self._table, move.number
        if move.kind == "stop":
            return stop_cost(table, now)
        if move.kind == "remedy":
            minutes, then = remedy_minutes(table, now, table.remedies[number]), [not_cured(table, now, number)]
        else:
            check = table.checks[number]
            minutes, then = check_minutes(table, now, check), seen_each(table, now, number, check.outcomes)
        return minutes * now.share + fsum(map(self._value, then))

    def _value(self, now: Standing) -> float:
        """Minutes (times share) where the next step is followed from here."""
        if now.share < FOLLOWED:
            return outlook(self._table, now)
        found = self._values.get(now)
        if found is None:
            found = self._values[now] = self._total(now, next_move(self._table, now))
        return found
