"""The policy that a rule makes, followed to its ends or until few jobs come so far."""

from __future__ import annotations

from collections.abc import Callable
from math import fsum
from typing import Literal, NamedTuple

from generator.analysis.doubt.standing import (
    Standing,
    check_minutes,
    not_cured,
    remedy_minutes,
    seen_each,
    stop_cost,
)
from generator.analysis.doubt.table import Table
from generator.analysis.policy import (
    UNLIKELY,
    BeyondNode,
    Branch,
    CheckNode,
    Node,
    RemedyNode,
    StopNode,
)


class Move(NamedTuple):
    """What to do next: a check or a remedy by its number in the table, or to stop."""

    kind: Literal["check", "remedy", "stop"]
    number: int = -1


STOP = Move("stop")
Rule = Callable[[Table, Standing], Move]
Estimate = Callable[[Table, Standing], float]

NOTHING = 1e-15
"Share of all jobs below which an outcome is left out: it is nothing but rounding."
DIGITS = 9
"Of minutes and shares, as one is held against another, so that rounding decides nothing."
LIKELY = 0.05
"Share of the jobs that stop, from which an unproved remedy is named."


class Grower:
    """Follows a rule from where a job stands."""

    def __init__(self, table: Table, rule: Rule, least: float = 0.0, estimate: Estimate | None = None) -> None:
        self._table, self._rule, self._least = table, rule, least
        self._estimate = estimate

    def policy(self, now: Standing) -> Node:
        """The policy from where some jobs stand."""
        node = self.grow(now)
        assert node is not None
        return node

    def grow(self, now: Standing) -> Node | None:
        """The policy from here; below a share of `least` its minutes are the estimate's."""
        return self._grown(now, now.share)

    def _grown(self, now: Standing, share: float) -> Node | None:
        if share <= NOTHING:
            return None
        if share < self._least and self._estimate:
            return BeyondNode(share, self._estimate(self._table, now) / share)
        kind, number = self._rule(self._table, now)
        if kind == "stop":
            return self._stop(now, share)
        return self._check(now, share, number) if kind == "check" else self._remedy(now, number)

    def _stop(self, now: Standing, share: float) -> StopNode:
        table = self._table
        unproved = tuple(
            r.id
            for n, r in enumerate(table.remedies)
            if r.needs_proof and not (now.tried | now.proved) >> n & 1
            and fsum(table.cured[n](now.weights)) >= LIKELY * share
        )
        listed = share - now.weights[table.unlisted]
        return StopNode(share, stop_cost(table, now) / share, listed, unproved)

    def _check(self, now: Standing, share: float, number: int) -> CheckNode:
        table, check = self._table, self._table.checks[number]
        outcomes = table.doubt.case.checks[number].outcomes
        branches = []
        for outcome, after in enumerate(seen_each(table, now, number, range(len(outcomes)))):
            part = after.share
            if part <= NOTHING:
                continue
            then = None if outcome in check.cured else self._grown(after, part)
            branches.append(Branch(outcome, outcomes[outcome], part, then, round(part / share, DIGITS) < UNLIKELY))
        opens = table.part_names(check.parts & ~now.open_parts)
        return CheckNode(check.id, opens, check_minutes(table, now, check), tuple(branches))

    def _remedy(self, now: Standing, number: int) -> RemedyNode:
        table, remedy = self._table, self._table.remedies[number]
        after = not_cured(table, now, number)
        cured = table.doubt.cures * fsum(table.cured[number](now.weights))
        opens = table.part_names(remedy.parts & ~now.open_parts)
        minutes = remedy_minutes(table, now, remedy)
        return RemedyNode(remedy.id, opens, minutes, cured, self.grow(after))
