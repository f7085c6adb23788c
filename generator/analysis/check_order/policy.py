"""A policy: what to do next, whatever is seen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.analysis.check_order.case import Check
from generator.analysis.check_order.situation import Situation
from generator.analysis.machine import Remedy


@dataclass(frozen=True, slots=True)
class Branch:
    """What follows one outcome of a check."""

    outcome: int
    "Index in the check's record."
    says: str
    share: float
    "Of the whole job."
    then: Node | None
    "None: the job is done."


@dataclass(frozen=True, slots=True)
class CheckNode:
    """Do a check."""

    check: str
    opens: tuple[str, ...]
    "Parts opened for it that were shut, by id."
    minutes: float
    "The check and its opening."
    branches: tuple[Branch, ...]
    "The outcomes that a hypothesis still left may show, in the order of the record."


@dataclass(frozen=True, slots=True)
class RemedyNode:
    """Try a remedy."""

    remedy: str
    opens: tuple[str, ...]
    "Parts opened for it that were shut, by id."
    minutes: float
    "The opening, the settings, the remedy and the proving sew."
    cured_share: float
    "Of the whole job."
    otherwise: Node | None
    "None: nothing else was left to look for."


Node = CheckNode | RemedyNode
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
    cured = sum(h.share for h in now.left if h.remedy.id == remedy.id) / whole
    otherwise = _node(now.after_remedy(remedy), rule, whole)
    return RemedyNode(remedy.id, opens, now.remedy_minutes(remedy), cured, otherwise)


def expected_minutes(policy: Node) -> float:
    """Minutes of every node times the share of the whole that reaches it, added up."""
    return _share_and_minutes(policy)[1]


def _share_and_minutes(node: Node | None) -> tuple[float, float]:
    if node is None:
        return 0.0, 0.0
    if isinstance(node, RemedyNode):
        below = [_share_and_minutes(node.otherwise)]
        share = node.cured_share + below[0][0]
    else:
        below = [_share_and_minutes(branch.then) for branch in node.branches]
        share = sum(branch.share for branch in node.branches)
    return share, node.minutes * share + sum(minutes for _, minutes in below)


def to_json(policy: Node | None) -> dict[str, object] | None:
    """Plain data for files and the browser. Outcomes count from 1, as people count them."""
    if policy is None:
        return None
    head = {"opens": list(policy.opens), "minutes": policy.minutes}
    if isinstance(policy, RemedyNode):
        tail = {"cured_share": policy.cured_share, "else": to_json(policy.otherwise)}
        return {"remedy": policy.remedy, **head, **tail}
    outcomes = [
        {"outcome": b.outcome + 1, "says": b.says, "share": b.share, "then": to_json(b.then)}
        for b in policy.branches
    ]
    return {"check": policy.check, **head, "outcomes": outcomes}
