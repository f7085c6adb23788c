"""Invented jobs with a hidden fault, put through one way of working or another.

Every way meets the same faults, readings and failures, so that ways can be compared job by job.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
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
    return _tally([_job(table, worker(), [rng.random() for _ in range(draws)]) for _ in range(jobs)])


class ByRule:
    """Works by a rule; what it decided once is remembered for all jobs that share `known`."""

    def __init__(self, table: Table, rule: Rule, known: dict[Standing, Move]) -> None:
        self._table, self._rule, self._known = table, rule, known
        self._now = start(table)

    def move(self) -> Move:
        """The rule's."""
        found = self._known.get(self._now)
        if found is None:
            found = self._known[self._now] = self._rule(self._table, self._now)
        return found

    def saw(self, number: int, outcome: int) -> None:
        """Beliefs after the reading."""
        self._now = seen(self._table, self._now, number, outcome)

    def failed(self, number: int) -> None:
        """Beliefs after the remedy."""
        self._now = not_cured(self._table, self._now, number)


def by_rule(table: Table, rule: Rule) -> Callable[[], Worker]:
    """Workers that follow a rule."""
    known: dict[Standing, Move] = {}
    return lambda: ByRule(table, rule, known)


def _job(table: Table, worker: Worker, draws: Sequence[float]) -> Job:
    doubt, cause, true = table.doubt, _drawn(table.prior, draws[0]), start(table)
    minutes, unproved, dear, tries = 0.0, 0, 0, 0
    while (move := worker.move()).kind != "stop":
        if move.kind == "check":
            check = table.checks[move.number]
            minutes += check_minutes(table, true, check)
            outcome = _drawn([chances[cause] for chances in check.chances], draws[1 + move.number])
            tries += bool(check.cured)
            if outcome in check.cured:
                return Job(minutes, True, tries == 1, unproved, dear)
            true = seen(table, true, move.number, outcome)
            worker.saw(move.number, outcome)
            continue
        remedy = table.remedies[move.number]
        minutes += remedy_minutes(table, true, remedy)
        tries += 1
        if cause in remedy.causes and draws[1 + len(table.checks) + move.number] < doubt.cures:
            return Job(minutes, True, tries == 1, unproved, dear)
        if not true.proved >> move.number & 1:
            unproved += 1
            dear += remedy.id in doubt.dear
        true = not_cured(table, true, move.number)
        worker.failed(move.number)
    left = doubt.come_back_minutes if cause != table.unlisted else 0.0
    return Job(minutes + doubt.stop_minutes + left, False, False, unproved, dear)


def _drawn(chances: Sequence[float], draw: float) -> int:
    """The index that a draw between 0 and 1 falls on."""
    for index, chance in enumerate(chances):
        draw -= chance
        if draw < 0:
            return index
    return max(index for index, chance in enumerate(chances) if chance)


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
