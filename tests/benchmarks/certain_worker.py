"""The way of working that takes every reading for certain and every cause for listed.

It follows the best order of the certain world (`check_order`) and, where that has nothing to say, its
next step among the causes that the fewest readings speak against. It stops when nothing is left.
"""

from __future__ import annotations

from collections.abc import Callable

from generator.analysis.check_order import solve
from generator.analysis.doubt.grow import STOP, Move
from generator.analysis.doubt.standing import check_number, remedy_number
from generator.analysis.doubt.table import Table
from generator.analysis.policy import CheckNode, Node, RemedyNode
from tests.analysis.doubt.doubt_simulate import Worker
from tests.benchmarks.certain_next_step import next_step


class CertainWorker:
    """One job, worked as if nothing could deceive."""

    def __init__(self, table: Table, policy: Node) -> None:
        self._table = table
        self._node: Node | None = policy
        self._against = [0] * table.unlisted
        self._done: set[str] = set()
        self._failed: set[str] = set()
        self._open: set[str] = set()

    def move(self) -> Move:
        """The order's, or the next step's."""
        if isinstance(self._node, CheckNode):
            return self._check(self._node.check)
        if isinstance(self._node, RemedyNode):
            return self._remedy(self._node.remedy)
        steps = next_step(self._table.doubt.case, self._weights(), self._open, self._done)
        if not steps:
            return STOP
        return self._check(steps[0].id) if steps[0].kind == "check" else self._remedy(steps[0].id)

    def saw(self, number: int, outcome: int) -> None:
        """Goes down the order's branch, if it has one for what was seen."""
        check = self._table.checks[number]
        self._done.add(check.id)
        self._open.update(self._table.part_names(check.parts))
        for cause in range(self._table.unlisted):
            self._against[cause] += check.sees[cause] != outcome
        node = self._node
        branches = node.branches if isinstance(node, CheckNode) and node.check == check.id else ()
        self._node = next((b.then for b in branches if b.outcome == outcome), None)

    def failed(self, number: int) -> None:
        """Goes on where the order does."""
        remedy = self._table.remedies[number]
        self._done.add(remedy.id)
        self._failed.add(remedy.id)
        self._open.update(self._table.part_names(remedy.parts))
        self._node = self._node.otherwise if isinstance(self._node, RemedyNode) else None

    def _weights(self) -> dict[str, float]:
        left = [n for n, h in enumerate(self._table.doubt.case.hypotheses) if h.remedy.id not in self._failed]
        fewest = min((self._against[n] for n in left), default=0)
        hypotheses = self._table.doubt.case.hypotheses
        return {hypotheses[n].id: hypotheses[n].share for n in left if self._against[n] == fewest}

    def _check(self, name: str) -> Move:
        return Move("check", check_number(self._table, name))

    def _remedy(self, name: str) -> Move:
        return Move("remedy", remedy_number(self._table, name))


def certain_worker(table: Table) -> Callable[[], Worker]:
    """Workers that follow the best order of the certain world."""
    policy = solve(table.doubt.case).policy
    return lambda: CertainWorker(table, policy)
