"""The written order of a complaint, as short as the walk needs it."""

from __future__ import annotations

from generator.analysis.policy import (
    BeyondNode,
    CheckNode,
    Node,
    RemedyNode,
    StopNode,
    share_and_minutes,
)


def compact(node: Node | None) -> dict[str, object] | None:
    """A step with what follows it; None where nothing is written.

    >>> compact(RemedyNode("renew:needle", (), 3.0, 0.97, StopNode(0.03, 15.0, 0.0, ())))["left"]
    3.45
    """
    if node is None or isinstance(node, BeyondNode):
        return None
    share, minutes = share_and_minutes(node)
    left = minutes / share
    if isinstance(node, StopNode):
        return {"does": "stop", "id": "", "left": left, "then": {}}
    if isinstance(node, RemedyNode):
        after = compact(node.otherwise)
        return {"does": "remedy", "id": node.remedy, "left": left, "then": {"else": after} if after else {}}
    return {"does": "check", "id": node.check, "left": left, "then": _then(node)}


def _then(node: CheckNode) -> dict[str, object]:
    found = ((str(b.outcome + 1), compact(b.then)) for b in node.branches)
    return {outcome: step for outcome, step in found if step}
