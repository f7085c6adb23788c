"""Causes that the best order does not tell apart: their remedies are tried in turn."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.check_order.case import Case, Hypothesis
from generator.analysis.policy import CheckNode, Node, RemedyNode


def tried_in_turn(case: Case, policy: Node) -> tuple[tuple[Hypothesis, ...], ...]:
    """Sets of hypotheses that the policy ends on by trying one remedy after another.

    Either no check separates them or none is worth its minutes. In the order of the policy; a set
    has two remedies or more.

    >>> from dataclasses import replace
    >>> from generator.analysis.check_order.solve import solve
    >>> from generator.analysis.coverage.example import CASE
    >>> no_checks = replace(CASE, checks=())
    >>> [[h.id for h in turn] for turn in tried_in_turn(no_checks, solve(no_checks).policy)]
    [['bent', 'blunt', 'late', 'burr']]
    """
    return tuple(_turns(case, policy, case.hypotheses))


def _turns(case: Case, node: Node | None, left: tuple[Hypothesis, ...]) -> Iterator[tuple[Hypothesis, ...]]:
    if isinstance(node, RemedyNode):
        if node.otherwise is not None and _ends_in_remedies(node):
            yield left
        elif node.otherwise is not None:
            yield from _turns(case, node.otherwise, tuple(h for h in left if h.remedy.id != node.remedy))
    if not isinstance(node, CheckNode):
        return
    sees = next(c.sees for c in case.checks if c.id == node.check)
    for branch in node.branches:
        yield from _turns(case, branch.then, tuple(h for h in left if sees[h.id] == branch.outcome))


def _ends_in_remedies(node: Node | None) -> bool:
    while isinstance(node, RemedyNode):
        node = node.otherwise
    return node is None
