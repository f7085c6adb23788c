"""The policy that a rule makes where nothing deceives."""

from __future__ import annotations

from collections.abc import Callable
from math import fsum

from generator.analysis.check_order.case import Check
from generator.analysis.check_order.situation import Situation
from generator.analysis.machine import Remedy
from generator.analysis.policy import Branch, CheckNode, Node, RemedyNode

Rule = Callable[[Situation], Check | Remedy]
"What to do next where several remedies are left."


def grow(start: Situation, rule: Rule) -> Node:
    """The policy that a rule makes from a situation with something left; one remedy left is always done."""
    policy = _node(start, rule, start.share())
    assert policy is not None
    return policy


def _node(now: Situation, rule: Rule, whole: float) -> Node | None:
    if not now.left:
        return None
    step = now.last_remedy() or rule(now)
    if isinstance(step, Check):
        return _check_node(now, step, rule, whole)
    return _remedy_node(now, step, rule, whole)


def _check_node(now: Situation, check: Check, rule: Rule, whole: float) -> CheckNode:
    branches = []
    for outcome in sorted({check.sees[h.id] for h in now.left}):
        after = now.after_check(check, outcome)
        then = None if outcome in check.cured else _node(after, rule, whole)
        branches.append(Branch(outcome, check.outcomes[outcome], after.share() / whole, then))
    opens = now.newly_opened(now.case.machine.way_in(check.reach))
    return CheckNode(check.id, opens, now.check_minutes(check), tuple(branches))


def _remedy_node(now: Situation, remedy: Remedy, rule: Rule, whole: float) -> RemedyNode:
    opens = now.newly_opened(now.case.machine.work(remedy).parts)
    cured = fsum(h.share for h in now.left if h.remedy.id == remedy.id) / whole
    otherwise = _node(now.after_remedy(remedy), rule, whole)
    return RemedyNode(remedy.id, opens, now.remedy_minutes(remedy), cured, otherwise)
