"""A policy as far as it is worth writing down: where few jobs come, only the next step is named."""

from __future__ import annotations

from dataclasses import replace

from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.standing import Standing, check_number, not_cured, remedy_number, seen
from generator.analysis.doubt.table import Table
from generator.analysis.policy import BeyondNode, CheckNode, Node, RemedyNode, StopNode, share_and_minutes


def written(table: Table, node: Node, now: Standing, least: float) -> Node:
    """The policy down to a share of `least` of all jobs; its minutes stay the same."""
    if isinstance(node, StopNode):
        return node
    share, minutes = share_and_minutes(node)
    if share < least or isinstance(node, BeyondNode):
        return BeyondNode(share, minutes / share, _next(table, now))
    if isinstance(node, RemedyNode):
        after = not_cured(table, now, remedy_number(table, node.remedy))
        return replace(node, otherwise=node.otherwise and written(table, node.otherwise, after, least))
    return _check(table, node, now, least)


def _check(table: Table, node: CheckNode, now: Standing, least: float) -> CheckNode:
    number = check_number(table, node.check)
    branches = (
        replace(b, then=b.then and written(table, b.then, seen(table, now, number, b.outcome), least))
        for b in node.branches
    )
    return replace(node, branches=tuple(branches))


def _next(table: Table, now: Standing) -> str:
    kind, number = next_move(table, now)
    if kind == "stop":
        return ""
    return table.checks[number].id if kind == "check" else table.remedies[number].id
