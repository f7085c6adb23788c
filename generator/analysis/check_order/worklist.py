"""A policy as a list to work down: numbered checks, and what each outcome leads to."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.policy import (
    CheckNode,
    Node,
    RemedyNode,
    expected_minutes,
)
from generator.analysis.check_order.situation import Situation


@dataclass(frozen=True, slots=True)
class Trial:
    """A remedy at the end of a line of checks."""

    remedy: str
    opens: tuple[str, ...]
    minutes: float
    cures: tuple[Hypothesis, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """What one outcome leads to: remedies in turn, then another check, or the end."""

    outcome: int
    says: str
    share: float
    "Of the jobs that reach this check, 0 to 1."
    left: tuple[Hypothesis, ...]
    "What it can still be, most likely first."
    cured: bool
    trials: tuple[Trial, ...]
    then: int | None
    "Number of the check that follows; None where the job ends."


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
    situation: Situation
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Worklist:
    """The whole list, with what is tried before the first check."""

    trials: tuple[Trial, ...]
    items: tuple[Item, ...]


def worklist(case: Case, policy: Node) -> Worklist:
    """The policy's checks in order of work, each standing where its own line of answers needs it."""
    walker = _Walker(case)
    trials, _ = walker.follow(policy, Situation(case, case.hypotheses))
    return Worklist(trials, tuple(sorted(walker.items, key=lambda i: i.number)))


class _Walker:
    def __init__(self, case: Case) -> None:
        self.items: list[Item] = []
        self._checks = {c.id: c for c in case.checks}
        self._remedies = {h.remedy.id: h.remedy for h in case.hypotheses}
        self._count = 0

    def follow(self, node: Node | None, now: Situation) -> tuple[tuple[Trial, ...], int | None]:
        """Remedies tried from here, and the number of the check after them."""
        trials = []
        while isinstance(node, RemedyNode):
            cures = tuple(h for h in now.left if h.remedy.id == node.remedy)
            trials.append(Trial(node.remedy, node.opens, node.minutes, _likeliest_first(cures)))
            now = now.after_remedy(self._remedies[node.remedy])
            node = node.otherwise
        return tuple(trials), None if node is None else self._item(node, now)

    def _item(self, node: CheckNode, now: Situation) -> int:
        self._count += 1
        number, check = self._count, self._checks[node.check]
        likeliest = sorted(node.branches, key=lambda b: (-b.share, b.outcome))
        whole = now.share()
        rows = {b.outcome: self._row(b.outcome, b.says, b.then, check, now, whole) for b in likeliest}
        self.items.append(
            Item(
                number=number,
                check=node.check,
                opens=node.opens,
                minutes=node.minutes,
                share=whole,
                expected=expected_minutes(node) / whole,
                situation=now,
                rows=tuple(rows[o] for o in sorted(rows)),
            )
        )
        return number

    def _row(
        self, outcome: int, says: str, then: Node | None, check: Check, now: Situation, whole: float
    ) -> Row:
        after = now.after_check(check, outcome)
        trials, number = self.follow(then, after)
        return Row(
            outcome=outcome,
            says=says,
            share=after.share() / whole,
            left=_likeliest_first(after.left),
            cured=outcome in check.cured,
            trials=trials,
            then=number,
        )


def _likeliest_first(hypotheses: tuple[Hypothesis, ...]) -> tuple[Hypothesis, ...]:
    return tuple(sorted(hypotheses, key=lambda h: (-h.share, h.id)))
