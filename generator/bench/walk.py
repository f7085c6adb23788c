"""Where a diagnosis stands after some answers, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_steps
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.ranking import Ranking, ranking
from generator.analysis.doubt.standing import (
    Standing,
    check_number,
    not_cured,
    passed_over,
    remedy_number,
    seen,
    start,
)
from generator.analysis.doubt.table import Table
from generator.analysis.policy import (
    CheckNode,
    Node,
    RemedyNode,
    StopNode,
    share_and_minutes,
)
from generator.bench.bench import Bench
from generator.bench.complaint import Complaint


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing done on a walk."""

    did: str
    "saw, skip or tried."
    id: str
    "Of a check or a remedy."
    outcome: int = 0
    "What was seen: the index in the check's record."


@dataclass(frozen=True, slots=True)
class Walk:
    """A diagnosis under way."""

    ranking: Ranking
    next_check: str | None
    "None where a remedy comes next, or to stop and think, or nothing."
    next_remedy: str | None
    planned: bool
    "Whether the next step is the order's; else it is the rule's."
    expected_minutes: float
    "Still to expect, from the machine as it stands now; off the order, an estimate."
    exact: bool
    "Whether no order takes fewer, of all that were searched."
    lower_bound: float


def walk(bench: Bench, complaint: Complaint, log: Sequence[Entry] = ()) -> Walk:
    """The causes after what was seen and done, and the next step.

    It is the computed order's as far as that is written and was followed, and then the rule's. What
    was done so far has opened what it needed. An answer that cured the machine ends the job.
    """
    table = Table(complaint.doubt)
    found = bench.diagnosed(complaint).order
    now = start(table)
    node: Node | None = found.policy
    for entry in log:
        now, node = _after(table, now, entry), _followed(node, entry)
    answers = [(check_number(table, e.id), e.outcome) for e in log if e.did == "saw"]
    ranked = ranking(table, now, answers)
    if any(outcome in table.checks[n].cured for n, outcome in answers):
        return Walk(ranked, None, None, False, 0.0, False, 0.0)
    if isinstance(node, CheckNode | RemedyNode | StopNode):
        return _planned(table, ranked, now, node, found.exact)
    return _by_rule(table, ranked, now)


def _after(table: Table, now: Standing, entry: Entry) -> Standing:
    if entry.did == "saw":
        return seen(table, now, check_number(table, entry.id), entry.outcome)
    if entry.did == "tried":
        return not_cured(table, now, remedy_number(table, entry.id))
    return passed_over(table, now, entry.id)


def _followed(node: Node | None, entry: Entry) -> Node | None:
    """The order's node after an entry; None where the order has nothing to say."""
    if isinstance(node, CheckNode) and (entry.did, entry.id) == ("saw", node.check):
        return next((b.then for b in node.branches if b.outcome == entry.outcome), None)
    if isinstance(node, RemedyNode) and (entry.did, entry.id) == ("tried", node.remedy):
        return node.otherwise
    return None


def _planned(table: Table, ranked: Ranking, now: Standing, node: Node, exact: bool) -> Walk:
    share, minutes = share_and_minutes(node)
    return Walk(
        ranked,
        node.check if isinstance(node, CheckNode) else None,
        node.remedy if isinstance(node, RemedyNode) else None,
        True,
        minutes / share,
        exact,
        minutes / share if exact else min(minutes, KnownCause(table).bound(now)) / share,
    )


def _by_rule(table: Table, ranked: Ranking, now: Standing) -> Walk:
    if now.share <= 0:
        return Walk(ranked, None, None, False, 0.0, False, 0.0)
    step = next_steps(table, now)[0]
    expected = outlook(table, now) / now.share
    return Walk(
        ranked,
        step.id if step.move.kind == "check" else None,
        step.id if step.move.kind == "remedy" else None,
        False,
        expected,
        False,
        min(expected, KnownCause(table).bound(now) / now.share),
    )
