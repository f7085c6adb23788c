"""Invented jobs with a hidden fault, put through one way of working or another.

Every way meets the same faults, readings and failures, so that ways can be compared job by job.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import sqrt
from random import Random
from typing import Protocol

from generator.analysis.doubt.grow import Move, Rule
from generator.analysis.doubt.standing import Standing, check_minutes, not_cured, remedy_minutes, seen, start
from generator.analysis.doubt.table import Table


class Worker(Protocol):
    """A way of working on one job."""

    def move(self) -> Move:
        """What is done next."""

    def saw(self, number: int, outcome: int) -> None:
        """Told what a check showed."""

    def failed(self, number: int) -> None:
        """Told that a remedy did not cure."""


@dataclass(frozen=True, slots=True)
class Job:
    """One job, as it went."""

    minutes: float
    "With stopping to think, and the coming back of a listed cause that was left."
    cured: bool
    first_cured: bool
    "Whether the first remedy or trial put on the machine cured it."
    unproved: int
    "Remedies done that did not cure, whose sign was not seen."
    dear_unproved: int
    "Of these, the dear ones."


@dataclass(frozen=True, slots=True)
class Tally:
    """Many jobs."""

    jobs: int
    minutes: float
    "Mean."
    error: float
    "Standard error of the mean."
    cured: float
    "Share of the jobs."
    first_cured: float
    "Share of the jobs."
    unproved: float
    "Remedies a job, done without their sign seen and in vain."
    dear_unproved: float


def simulate(table: Table, worker: Callable[[], Worker], jobs: int, seed: int = 0) -> Tally:
    """So many jobs put through one way of working."""
    rng = Random(seed)
    draws = 1 + len(table.checks) + len(table.remedies)
    place, chances = Place(table, start(table)), Chances.of(table)
    return _tally([_job(place, chances, worker(), [rng.random() for _ in range(draws)]) for _ in range(jobs)])


class Place:
    """Where jobs stand and what follows from there; made once for all the jobs that come to it."""

    def __init__(self, table: Table, standing: Standing) -> None:
        self.table, self.standing = table, standing
        self.decided: Move | None = None
        "By a rule, once it was asked."
        self._after: dict[tuple[bool, int, int], tuple[float, Place]] = {}

    def checked(self, number: int, outcome: int) -> tuple[float, Place]:
        """Minutes of a check, and where its outcome leads."""
        found = self._after.get((True, number, outcome))
        if found is None:
            takes = check_minutes(self.table, self.standing, self.table.checks[number])
            then = seen(self.table, self.standing, number, outcome) if outcome not in self.table.checks[number].cured else self.standing
            found = self._after[True, number, outcome] = takes, Place(self.table, then)
        return found

    def tried(self, number: int) -> tuple[float, Place]:
        """Minutes of a remedy, and where it leads if it does not cure."""
        found = self._after.get((False, number, 0))
        if found is None:
            takes = remedy_minutes(self.table, self.standing, self.table.remedies[number])
            found = self._after[False, number, 0] = takes, Place(self.table, not_cured(self.table, self.standing, number))
        return found


class ByRule:
    """Works by a rule; what it decided once is remembered for all jobs that begin at `place`."""

    def __init__(self, rule: Rule, place: Place) -> None:
        self._rule, self._now = rule, place

    def move(self) -> Move:
        """The rule's."""
        if self._now.decided is None:
            self._now.decided = self._rule(self._now.table, self._now.standing)
        return self._now.decided

    def saw(self, number: int, outcome: int) -> None:
        """Beliefs after the reading."""
        self._now = self._now.checked(number, outcome)[1]

    def failed(self, number: int) -> None:
        """Beliefs after the remedy."""
        self._now = self._now.tried(number)[1]


def by_rule(table: Table, rule: Rule) -> Callable[[], Worker]:
    """Workers that follow a rule."""
    place = Place(table, start(table))
    return lambda: ByRule(rule, place)


@dataclass(frozen=True, slots=True)
class Chances:
    """Running sums of probabilities, for draws between 0 and 1."""

    causes: Sequence[float]
    shown: Sequence[Sequence[Sequence[float]]]
    "By check, then by cause: over the outcomes."

    @classmethod
    def of(cls, table: Table) -> Chances:
        """Those of a table."""
        by_cause = [list(zip(*check.chances, strict=True)) for check in table.checks]
        return cls(_sums(table.prior), [[_sums(outcomes) for outcomes in causes] for causes in by_cause])


def _job(place: Place, chances: Chances, worker: Worker, draws: Sequence[float]) -> Job:
    table = place.table
    doubt, cause = table.doubt, bisect_right(chances.causes, draws[0])
    minutes, unproved, dear, tries = 0.0, 0, 0, 0
    while (move := worker.move()).kind != "stop":
        if move.kind == "check":
            cured = table.checks[move.number].cured
            outcome = bisect_right(chances.shown[move.number][cause], draws[1 + move.number])
            takes, place = place.checked(move.number, outcome)
            minutes += takes
            tries += bool(cured)
            if outcome in cured:
                return Job(minutes, True, tries == 1, unproved, dear)
            worker.saw(move.number, outcome)
            continue
        remedy, proved = table.remedies[move.number], place.standing.proved
        takes, place = place.tried(move.number)
        minutes += takes
        tries += 1
        if cause in remedy.causes and draws[1 + len(table.checks) + move.number] < doubt.cures:
            return Job(minutes, True, tries == 1, unproved, dear)
        if not proved >> move.number & 1:
            unproved += 1
            dear += remedy.id in doubt.dear
        worker.failed(move.number)
    left = doubt.come_back_minutes if cause != table.unlisted else 0.0
    return Job(minutes + doubt.stop_minutes + left, False, False, unproved, dear)


def _sums(chances: Sequence[float]) -> list[float]:
    """Running sums; what is lost by rounding goes to the last one that is possible."""
    last = max(index for index, chance in enumerate(chances) if chance)
    return [*accumulate(chances[:last]), *[1.0] * (len(chances) - last)]


def _tally(jobs: Sequence[Job]) -> Tally:
    count = len(jobs)
    mean = sum(j.minutes for j in jobs) / count
    spread = sum((j.minutes - mean) ** 2 for j in jobs) / max(1, count - 1)
    return Tally(
        jobs=count,
        minutes=mean,
        error=sqrt(spread / count),
        cured=sum(j.cured for j in jobs) / count,
        first_cured=sum(j.first_cured for j in jobs) / count,
        unproved=sum(j.unproved for j in jobs) / count,
        dear_unproved=sum(j.dear_unproved for j in jobs) / count,
    )
