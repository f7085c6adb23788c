"""What the order of checks is reckoned from: causes with shares, checks, and the machine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import fsum, isfinite

from generator.analysis.machine import Machine, Remedy


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One thing that may be wrong, and what puts it right."""

    id: str
    causes: tuple[str, ...]
    "Failure modes that are present together."
    share: float
    "Weight, more than 0; a `Case` scales the weights to sum to 1."
    remedy: Remedy
    "Hypotheses whose remedies have the same id are cured together."


@dataclass(frozen=True, slots=True)
class Check:
    """A look, a measurement or a trial remedy that tells hypotheses apart."""

    id: str
    minutes: float
    "Without opening anything."
    reach: tuple[str, ...]
    "Parts that must be out of the way; what they are behind comes off too."
    outcomes: tuple[str, ...]
    "What may be seen, in the order of the record."
    sees: Mapping[str, int]
    "Hypothesis id to the index of the outcome that it shows."
    cured: frozenset[int] = field(default_factory=frozenset)
    "Outcomes that end the job: the check was itself a trial remedy."


@dataclass(frozen=True, slots=True)
class Case:
    """One complaint on one machine. Raises ValueError with one sentence for the first fault found.

    >>> case = Case((Hypothesis("dull", ("dull",), 3, Remedy("renew-needle")),
    ...              Hypothesis("late", ("late",), 1, Remedy("set-timing"))), (), Machine(), 2)
    >>> [h.share for h in case.hypotheses]
    [0.75, 0.25]
    """

    hypotheses: tuple[Hypothesis, ...]
    checks: tuple[Check, ...]
    "In the order of the record."
    machine: Machine
    proving_minutes: float
    "The proving sew after every remedy tried."

    def __post_init__(self) -> None:
        """Refuse what cannot be reckoned, then scale the shares."""
        for fault in _faults(self):
            raise ValueError(fault)
        whole = fsum(h.share for h in self.hypotheses)
        scaled = tuple(replace(h, share=h.share / whole) for h in self.hypotheses)
        object.__setattr__(self, "hypotheses", scaled)


def _faults(case: Case) -> Iterator[str]:
    if not case.hypotheses:
        yield "A case needs at least one hypothesis."
    yield from _twice("hypothesis", [h.id for h in case.hypotheses])
    yield from _twice("check", [c.id for c in case.checks])
    yield from _not_minutes("The proving sew", case.proving_minutes)
    yield from _machine_faults(case.machine)
    for hypothesis in case.hypotheses:
        yield from _hypothesis_faults(hypothesis, case)
    for check in case.checks:
        yield from _check_faults(check, case)


def _twice(kind: str, ids: list[str]) -> Iterator[str]:
    for repeated in sorted({i for i in ids if ids.count(i) > 1}):
        yield f"Two of the case's {kind} ids are '{repeated}'."


def _not_minutes(what: str, minutes: float) -> Iterator[str]:
    if not (isfinite(minutes) and minutes >= 0):
        yield f"{what} takes {minutes} minutes; minutes are 0 or more."


def _machine_faults(machine: Machine) -> Iterator[str]:
    for part in machine.parts.values():
        yield from _not_minutes(f"Taking off '{part.id}'", part.off_minutes)
        yield from _not_minutes(f"Refitting '{part.id}'", part.on_minutes)
    for setting in machine.settings.values():
        yield from _not_minutes(f"Setting '{setting.id}'", setting.minutes)


def _hypothesis_faults(hypothesis: Hypothesis, case: Case) -> Iterator[str]:
    remedy = hypothesis.remedy
    if not (isfinite(hypothesis.share) and hypothesis.share > 0):
        share = f"has the share {hypothesis.share}; a share is more than 0."
        yield f"Hypothesis '{hypothesis.id}' {share}"
    yield from _not_minutes(f"Remedy '{remedy.id}'", remedy.minutes)
    yield from _no_parts(f"Remedy '{remedy.id}'", (*remedy.renew, *remedy.reach), case.machine)
    for setting in remedy.set:
        if setting not in case.machine.settings:
            yield f"Remedy '{remedy.id}' names '{setting}', which is no setting of the machine."
    if any(h.remedy.id == remedy.id and h.remedy != remedy for h in case.hypotheses):
        yield f"Two different remedies have the id '{remedy.id}'."


def _check_faults(check: Check, case: Case) -> Iterator[str]:
    yield from _not_minutes(f"Check '{check.id}'", check.minutes)
    yield from _no_parts(f"Check '{check.id}'", check.reach, case.machine)
    for hypothesis in case.hypotheses:
        if hypothesis.id not in check.sees:
            yield f"Check '{check.id}' does not say what '{hypothesis.id}' shows."
    for unknown in sorted(set(check.sees) - {h.id for h in case.hypotheses}):
        yield f"Check '{check.id}' tells of '{unknown}', which is no hypothesis of the case."
    for number in (*check.sees.values(), *check.cured):
        if number not in range(len(check.outcomes)):
            count = len(check.outcomes)
            yield f"Check '{check.id}' has no outcome {number}; it has {count}, counted from 0."


def _no_parts(what: str, parts: Iterable[str], machine: Machine) -> Iterator[str]:
    for part in parts:
        if part not in machine.parts:
            yield f"{what} names '{part}', which is no part of the machine."
