"""A case as it is at the bench: readings may deceive, a remedy may fail, the cause may be unlisted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from math import isfinite

from generator.analysis.check_order.case import Case, Check

TRUST = 0.95
"How often what is seen follows the true cause, where a record says nothing. An estimate."
CURES = 0.97
"How often a remedy done for the true cause cures it. An estimate."
UNLISTED = 0.03
"Share of the jobs whose cause no record lists, where a family says nothing. An estimate."
SOMETHING_ELSE = "something else"
"Id of the unlisted cause; record ids hold no space."
STOP_MINUTES = 15.0
"Stopping to think: what was seen is gone over again. An estimate."
COME_BACK_MINUTES = 120.0
"What a listed cause costs that the order leaves in the machine: the job comes back. An estimate."


@dataclass(frozen=True, slots=True)
class Reading:
    """What a check's record says of its readings."""

    sound: int
    "Index of the outcome that a sound machine shows, and so a cause that nobody has listed."
    trust: tuple[float, ...]
    "By outcome: how often a cause that shows it is seen to show it."
    does: frozenset[str] = field(default_factory=frozenset)
    "Ids of remedies that the check does on its way or as a trial."


@dataclass(frozen=True, slots=True)
class Doubt:
    """One complaint with its doubts. Raises ValueError with one sentence for the first fault found.

    A cause shows its outcome as often as the outcome's trust says; what is left is spread evenly
    over the other outcomes, but for those that end the job: a machine that is not cured is never
    seen cured. A reading is one draw: looking again repeats the same error.
    """

    case: Case
    readings: Mapping[str, Reading]
    "By the id of the check."
    unlisted: float = UNLISTED
    "Prior of a cause that the case does not list: 0 or more, below 1."
    stop_minutes: float = STOP_MINUTES
    come_back_minutes: float = COME_BACK_MINUTES
    cures: float = CURES
    "Probability that a remedy cures its cause, more than 0; that of a trial is its outcome's trust."
    dear: frozenset[str] = field(default_factory=frozenset)
    "Ids of remedies that want proof: their own sign seen."
    no_sign: frozenset[str] = field(default_factory=frozenset)
    "Dear remedies that may be proposed unproved, because a record says that nothing shows the fault."
    before: tuple[str, ...] = ()
    "Ids of checks that come before all else, in this order."
    safe: frozenset[str] = field(default_factory=frozenset)
    """Of those, the ones that must be found sound before power goes on: where one shows a fault, nothing
    but what may mend that fault is done with power until all of that is done, and a remedy ends in a sew."""
    powered: frozenset[str] = field(default_factory=frozenset)
    "Ids of checks that are done with power on."
    lost: tuple[tuple[str, str], ...] = ()
    "(check or remedy, check): the first destroys what the second reads, and so comes after it."

    def __post_init__(self) -> None:
        """Refuse what cannot be reckoned."""
        for fault in _faults(self):
            raise ValueError(fault)

    def needs_proof(self, remedy: str) -> bool:
        """Whether the remedy is dear and nothing excuses it from being proved."""
        return remedy in self.dear and remedy not in self.no_sign


def signs(case: Case, check: Check, sound: int, outcome: int) -> frozenset[str]:
    """Ids of the remedies whose own sign an outcome is: a cause shows it and a sound machine does not."""
    if outcome == sound or outcome in check.cured:
        return frozenset()
    return frozenset(h.remedy.id for h in case.hypotheses if check.sees[h.id] == outcome)


def unprovable(doubt: Doubt) -> tuple[str, ...]:
    """Remedies that want a proof and that no check can prove, by id.

    >>> from generator.analysis.check_order.case import Hypothesis
    >>> from generator.analysis.machine import Machine, Remedy
    >>> motor = Hypothesis("worn", ("worn",), 1, Remedy("renew:motor", minutes=40))
    >>> look = Check("look", 1, (), ("dark", "bright"), {"worn": 1})
    >>> unprovable(plain(Case((motor,), (look,), Machine(), 2), dear=frozenset({"renew:motor"})))
    ('renew:motor',)
    """
    proved = {
        remedy
        for check in doubt.case.checks
        for outcome in range(len(check.outcomes))
        for remedy in signs(doubt.case, check, doubt.readings[check.id].sound, outcome)
    }
    return tuple(sorted(r for r in doubt.dear - proved if doubt.needs_proof(r)))


def plain(case: Case, trust: float = TRUST, **more: object) -> Doubt:
    """A case with one trust for every reading and its last outcome that does not cure as the sound one."""
    readings = {}
    for check in case.checks:
        ordinary = [n for n in range(len(check.outcomes)) if n not in check.cured]
        sound = ordinary[-1] if ordinary else 0
        readings[check.id] = Reading(sound, (trust,) * len(check.outcomes))
    return Doubt(case, readings, **more)  # type: ignore[arg-type]


def _faults(doubt: Doubt) -> Iterator[str]:
    checks = {c.id: c for c in doubt.case.checks}
    remedies = {h.remedy.id for h in doubt.case.hypotheses}
    if not 0 <= doubt.unlisted < 1:
        yield f"The unlisted cause has the prior {doubt.unlisted}; it is 0 or more and below 1."
    if not 0 < doubt.cures <= 1:
        yield f"A remedy cures with probability {doubt.cures}; it is more than 0 and at most 1."
    for what, minutes in (("Stopping to think", doubt.stop_minutes), ("A job that comes back", doubt.come_back_minutes)):
        if not (isfinite(minutes) and minutes >= 0):
            yield f"{what} takes {minutes} minutes; minutes are 0 or more."
    for check in doubt.case.checks:
        yield from _reading_faults(check, doubt.readings.get(check.id), remedies)
    for unknown in sorted((doubt.dear | doubt.no_sign) - remedies):
        yield f"'{unknown}' is no remedy of the case."
    yield from _order_faults(doubt, checks, remedies)


def _reading_faults(check: Check, reading: Reading | None, remedies: set[str]) -> Iterator[str]:
    if reading is None:
        yield f"Check '{check.id}' does not say what a sound machine shows."
        return
    if reading.sound not in range(len(check.outcomes)):
        yield f"Check '{check.id}' has no outcome {reading.sound} for a sound machine."
    elif reading.sound in check.cured:
        yield f"Check '{check.id}' cannot cure a machine in which nothing that it mends is wrong."
    if len(reading.trust) != len(check.outcomes) or not all(0 < t <= 1 for t in reading.trust):
        yield f"Check '{check.id}' needs a trust for each outcome, more than 0 and at most 1."
    for unknown in sorted(reading.does - remedies):
        yield f"Check '{check.id}' does '{unknown}', which is no remedy of the case."


def _order_faults(doubt: Doubt, checks: Mapping[str, Check], remedies: set[str]) -> Iterator[str]:
    for unknown in sorted((doubt.safe - set(doubt.before)) | (doubt.powered - checks.keys())):
        yield f"'{unknown}' is said to be safe or powered, but is no such check of the case."
    for first in doubt.before:
        if first not in checks:
            yield f"'{first}' is to come before all else, but is no check of the case."
        elif checks[first].cured:
            yield f"'{first}' is to come before all else, but is a trial that may end the job."
        elif doubt.safe and first in doubt.powered:
            yield f"'{first}' is to come before all else with power on, though power waits for what must be found sound."
    after: dict[str, set[str]] = {}
    for destroys, reads in doubt.lost:
        if destroys not in checks and destroys not in remedies:
            yield f"'{destroys}' is said to destroy evidence, but is no check or remedy of the case."
        if reads not in checks:
            yield f"'{reads}' is said to lose its evidence, but is no check of the case."
        after.setdefault(destroys, set()).add(reads)
    for earlier, later in pairwise(doubt.before):
        after.setdefault(later, set()).add(earlier)
    yield from _round(after, doubt.before)


def _round(after: Mapping[str, set[str]], before: tuple[str, ...]) -> Iterator[str]:
    """A round of things that each come after the next."""
    for start in sorted(after):
        found: set[str] = set()
        stack = [start]
        while stack:
            new = after.get(stack.pop(), set()) - found
            found |= new
            stack += sorted(new)
        if start in found:
            yield f"'{start}' would have to come after itself."
        elif start in before and found - set(before):
            first = min(found - set(before))
            yield f"'{start}' comes before all else, yet destroys what '{first}' reads."
