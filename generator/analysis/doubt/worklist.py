"""A policy under doubt as a list to work down: numbered checks, and what each outcome leads to."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order.case import Hypothesis
from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.standing import (
    Standing,
    check_number,
    not_cured,
    passed_over,
    remedy_minutes,
    remedy_number,
    seen,
    start,
)
from generator.analysis.doubt.table import Table
from generator.analysis.doubt.written import written
from generator.analysis.policy import (
    BeyondNode,
    Branch,
    CheckNode,
    Node,
    RemedyNode,
    StopNode,
    expected_minutes,
)

CARDS = 0.04
"Share of the jobs down to which checks are listed; below it only the next step is named."
WORTH = 0.1
"Share of what an outcome leaves, from which a cause is named there."


@dataclass(frozen=True, slots=True)
class Trial:
    """A remedy in a line of steps."""

    remedy: str
    opens: tuple[str, ...]
    minutes: float
    cures: tuple[Hypothesis, ...]
    "Likeliest first."


@dataclass(frozen=True, slots=True)
class Ending:
    """What a line of remedies leads to where no written check follows."""

    stop: StopNode | None
    beyond: BeyondNode | None


@dataclass(frozen=True, slots=True)
class Row:
    """What one outcome leads to: remedies in turn, then another check, or the end of what is written."""

    outcome: int
    says: str
    share: float
    "Of the jobs that reach this check, 0 to 1."
    unlikely: bool
    strange: bool
    "Whether no listed cause shows it, nor a sound machine."
    left: tuple[tuple[Hypothesis | None, float], ...]
    "What it may be, with its share, likeliest first, from `WORTH` on; None is something else."
    cured: bool
    trials: tuple[Trial, ...]
    again: Trial | None
    "Where it is unlikely: the remedy to do if it is looked at again and stands; None where another step is better."
    then: int | None
    "Number of the check that follows."
    ending: Ending | None
    "None where a written check follows or the job is done."


@dataclass(frozen=True, slots=True)
class Item:
    """One check in the list."""

    number: int
    "From 1; the likeliest line of answers comes first, without a gap."
    check: str
    opens: tuple[str, ...]
    minutes: float
    "The check and its opening."
    share: float
    "Of all jobs, 0 to 1, that come to this check here."
    expected: float
    "Minutes still to expect, this check included."
    open_parts: frozenset[str]
    "Those off before it."
    rows: tuple[Row, ...]
    instead: str
    "Id of what is best where this check cannot be done or shows none of its outcomes; empty: to stop and think."


@dataclass(frozen=True, slots=True)
class Worklist:
    """The whole list, with what is tried before the first check."""

    trials: tuple[Trial, ...]
    items: tuple[Item, ...]


def worklist(doubt: Doubt, policy: Node) -> Worklist:
    """The policy's checks in order of work, each standing where its own line of answers needs it.

    Only as far as a share of `CARDS` of the jobs comes, so that the list stays one to work down.
    """
    walker = _Walker(Table(doubt))
    short = written(walker.table, policy, start(walker.table), CARDS)
    trials, _, _ = walker.follow(short, start(walker.table))
    return Worklist(trials, tuple(sorted(walker.items, key=lambda i: i.number)))


class _Walker:
    def __init__(self, table: Table) -> None:
        self.table = table
        self.items: list[Item] = []
        self._count = 0

    def follow(self, node: Node | None, now: Standing) -> tuple[tuple[Trial, ...], int | None, Ending | None]:
        """Remedies tried from here, the number of the check after them, and the end where none is written."""
        trials = []
        while isinstance(node, RemedyNode):
            number = remedy_number(self.table, node.remedy)
            trials.append(Trial(node.remedy, node.opens, node.minutes, self._cures(number, now)))
            now, node = not_cured(self.table, now, number), node.otherwise
        if isinstance(node, CheckNode):
            return tuple(trials), self._item(node, now), None
        stop = node if isinstance(node, StopNode) else None
        beyond = node if isinstance(node, BeyondNode) else None
        return tuple(trials), None, Ending(stop, beyond) if node else None

    def _item(self, node: CheckNode, now: Standing) -> int:
        self._count += 1
        number, whole = self._count, now.share
        likeliest = sorted(node.branches, key=lambda b: (-b.share, b.outcome))
        rows = {b.outcome: self._row(node, b, now, whole) for b in likeliest}
        self.items.append(
            Item(
                number=number,
                check=node.check,
                opens=node.opens,
                minutes=node.minutes,
                share=whole,
                expected=expected_minutes(node) / whole,
                open_parts=frozenset(self.table.part_names(now.open_parts)),
                rows=tuple(rows[o] for o in sorted(rows)),
                instead=next_steps(self.table, passed_over(self.table, now, node.check))[0].id,
            )
        )
        return number

    def _row(self, node: CheckNode, branch: Branch, now: Standing, whole: float) -> Row:
        check = check_number(self.table, node.check)
        after = seen(self.table, now, check, branch.outcome)
        trials, number, ending = self.follow(branch.then, after)
        return Row(
            outcome=branch.outcome,
            says=branch.says,
            share=branch.share / whole,
            unlikely=branch.unlikely,
            strange=branch.outcome not in self.table.checks[check].sees,
            left=self._left(after),
            cured=branch.outcome in self.table.checks[check].cured,
            trials=trials,
            again=self._again(after, check, branch.outcome) if branch.unlikely and not trials else None,
            then=number,
            ending=ending,
        )

    def _again(self, after: Standing, check: int, outcome: int) -> Trial | None:
        """What a second look that shows the same leads to, if it is the remedy of what is seen."""
        twice = seen(self.table, after, check, outcome)
        kind, number = next_move(self.table, twice)
        if kind != "remedy" or not self.table.checks[check].proves[outcome] >> number & 1:
            return None
        remedy = self.table.remedies[number]
        opens = self.table.part_names(remedy.parts & ~twice.open_parts)
        return Trial(remedy.id, opens, remedy_minutes(self.table, twice, remedy), self._cures(number, twice))

    def _cures(self, number: int, now: Standing) -> tuple[Hypothesis, ...]:
        causes = sorted(self.table.remedies[number].causes, key=lambda c: (-now.weights[c], c))
        return tuple(self.table.doubt.case.hypotheses[c] for c in causes)

    def _left(self, after: Standing) -> tuple[tuple[Hypothesis | None, float], ...]:
        causes = [*self.table.doubt.case.hypotheses, None]
        found = [(c, w / after.share) for c, w in zip(causes, after.weights, strict=True)]
        found = [(c, share) for c, share in found if share >= WORTH]
        return tuple(sorted(found, key=lambda cause: (-cause[1], cause[0].id if cause[0] else "")))
