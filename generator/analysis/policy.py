"""A policy: what to do next, whatever is seen, until the machine is cured or one stops to think."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum

UNLIKELY = 0.05
"Share of the jobs at a check below which what it shows is flagged as unlikely there."


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
    unlikely: bool = False
    "Seldom seen here: look again before it is believed."


@dataclass(frozen=True, slots=True)
class CheckNode:
    """Do a check."""

    check: str
    opens: tuple[str, ...]
    "Parts opened for it that were shut, by id."
    minutes: float
    "The check and its opening."
    branches: tuple[Branch, ...]
    "Every outcome that may be seen, in the order of the record."


@dataclass(frozen=True, slots=True)
class RemedyNode:
    """Try a remedy."""

    remedy: str
    opens: tuple[str, ...]
    minutes: float
    "The opening, the settings, the remedy and the proving sew."
    cured_share: float
    "Of the whole job."
    otherwise: Node | None
    "None: nothing else is left that it could be."


@dataclass(frozen=True, slots=True)
class StopNode:
    """Stop and think: the cause may be one that nobody has listed."""

    share: float
    "Of the whole job."
    minutes: float
    "Thinking, and what it costs that a listed cause may come back."
    listed_share: float
    "Of the whole job: those that have a listed cause."
    unproved: tuple[str, ...]
    "Remedies that are still likely, but that nothing has proved."


@dataclass(frozen=True, slots=True)
class BeyondNode:
    """The written order ends here, for so few jobs come so far; the rule of the next step goes on."""

    share: float
    minutes: float
    "Still to expect."
    next: str = ""
    "Id of the check or remedy that the rule does first from here; empty where it stops to think."


Node = CheckNode | RemedyNode | StopNode | BeyondNode


def expected_minutes(policy: Node | None) -> float:
    """Minutes of every node times the share of the whole that reaches it, added up."""
    return share_and_minutes(policy)[1]


def share_and_minutes(node: Node | None) -> tuple[float, float]:
    """The share of the whole that reaches a node, and the minutes (times share) from there."""
    if node is None:
        return 0.0, 0.0
    if isinstance(node, StopNode | BeyondNode):
        return node.share, node.minutes * node.share
    if isinstance(node, RemedyNode):
        below = [share_and_minutes(node.otherwise)]
        share = node.cured_share + below[0][0]
    else:
        below = [share_and_minutes(branch.then) for branch in node.branches]
        share = fsum(branch.share for branch in node.branches)
    return share, node.minutes * share + fsum(minutes for _, minutes in below)


def nodes(policy: Node | None) -> Iterator[Node]:
    """Every node, the first first."""
    stack = [policy]
    while stack:
        node = stack.pop()
        if node is not None:
            yield node
            stack += reversed(following(node))


def following(node: Node) -> list[Node | None]:
    """What may come right after a node."""
    if isinstance(node, CheckNode):
        return [b.then for b in node.branches]
    return [node.otherwise] if isinstance(node, RemedyNode) else []


def to_json(policy: Node | None) -> dict[str, object] | None:
    """Plain data for files and the browser. Outcomes count from 1, as people count them."""
    if policy is None:
        return None
    if isinstance(policy, StopNode):
        reason = {"unproved": list(policy.unproved), "listed_share": policy.listed_share}
        return {"stop": reason, "share": policy.share, "minutes": policy.minutes}
    if isinstance(policy, BeyondNode):
        return {"beyond": policy.minutes, "share": policy.share, "next": policy.next}
    head = {"opens": list(policy.opens), "minutes": policy.minutes}
    if isinstance(policy, RemedyNode):
        tail = {"cured_share": policy.cured_share, "else": to_json(policy.otherwise)}
        return {"remedy": policy.remedy, **head, **tail}
    return {"check": policy.check, **head, "outcomes": [_branch(b) for b in policy.branches]}


def _branch(branch: Branch) -> dict[str, object]:
    head = {"outcome": branch.outcome + 1, "says": branch.says, "share": branch.share}
    return {**head, "unlikely": branch.unlikely, "then": to_json(branch.then)}
