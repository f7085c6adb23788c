"""Where a job stands: beliefs, what is open, what is done, whose sign was seen."""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce
from math import fsum
from operator import mul, or_
from typing import NamedTuple

from generator.analysis.doubt.rows import CheckRow, RemedyRow, Weights, numbers
from generator.analysis.doubt.table import Table


class Standing(NamedTuple):
    """Where a job stands. Sets are in the bits of the table."""

    weights: Weights
    "By cause: the share of all jobs that have it and have come to this."
    open_parts: int = 0
    checked: int = 0
    "Checks done, or that cannot be done."
    tried: int = 0
    "Remedies done, or that cannot be done."
    proved: int = 0
    "Remedies whose sign was seen."
    faults: tuple[int, ...] = ()
    "What checks that must be found sound have shown instead: by each, the remedies that mend it."

    def unsafe(self) -> int | None:
        """None where power may go on; else the remedies that may mend what was found and are not done.

        A job that goes on after one of them is not cured, so that the fault still stands: power waits
        until all of them are done, and for good where none is known.
        """
        if not self.faults:
            return None
        open_faults = [mends & ~self.tried for mends in self.faults if not mends or mends & ~self.tried]
        return reduce(or_, open_faults) if open_faults else None

    @property
    def share(self) -> float:
        """Of all jobs."""
        return fsum(self.weights)


def start(table: Table) -> Standing:
    """A closed machine of which nothing was seen."""
    return Standing(table.prior)


def check_number(table: Table, name: str) -> int:
    """The number of a check in the table."""
    return next(n for n, row in enumerate(table.checks) if row.id == name)


def remedy_number(table: Table, name: str) -> int:
    """The number of a remedy in the table."""
    return next(n for n, row in enumerate(table.remedies) if row.id == name)


def passed_over(table: Table, now: Standing, name: str) -> Standing:
    """With a check or a remedy that cannot be done, or that has told nothing."""
    checked, tried = now.checked | table.check_bits([name]), now.tried | table.remedy_bits([name])
    return now._replace(checked=checked, tried=tried)


def check_minutes(table: Table, now: Standing, check: CheckRow) -> float:
    """A check from here, its opening included."""
    return check.minutes + table.opening(check.parts & ~now.open_parts)


def remedy_minutes(table: Table, now: Standing, remedy: RemedyRow) -> float:
    """A remedy from here, its opening and the proving sew included."""
    return remedy.minutes + table.opening(remedy.parts & ~now.open_parts)


def seen(table: Table, now: Standing, number: int, outcome: int) -> Standing:
    """After a check has shown an outcome that does not end the job (Bayes' rule)."""
    return seen_each(table, now, number, (outcome,))[0]


def seen_each(table: Table, now: Standing, number: int, outcomes: Iterable[int]) -> list[Standing]:
    """After each of a check's outcomes: what does not hang on the outcome is reckoned once."""
    check = table.checks[number]
    tried, opened = now.tried | check.does, now.open_parts | check.parts
    checked = now.checked | 1 << number | table.repeats(tried)
    return [
        Standing(
            tuple(map(mul, now.weights, check.chances[outcome])),
            opened,
            checked,
            tried,
            now.proved | check.proves[outcome],
            (*now.faults, check.proves[outcome]) if check.safe and outcome != check.sound else now.faults,
        )
        for outcome in outcomes
    ]


def not_cured(table: Table, now: Standing, number: int) -> Standing:
    """After a remedy has not cured the machine."""
    remedy = table.remedies[number]
    weights = list(now.weights)
    for cause in remedy.causes:
        weights[cause] *= 1 - table.doubt.cures
    opened, tried = now.open_parts | remedy.parts, now.tried | 1 << number
    return Standing(tuple(weights), opened, now.checked | table.repeats(tried), tried, now.proved, now.faults)


def allowed(table: Table, now: Standing) -> int:
    """Steps that may come next, as a set of the table's steps: see `allowed_checks` and `allowed_remedies`."""
    for first in table.before:
        if not now.checked & first:
            return first
    remedies, mends = len(table.checks), now.unsafe()
    may = table.every & ~(now.checked | (now.tried | table.unproved & ~now.proved) << remedies)
    if mends is not None:
        may &= ~table.powered & (mends << remedies | (1 << remedies) - 1)
    for step, after in table.waiting:
        if after & ~now.checked:
            may &= ~step
    return may


def allowed_checks(table: Table, now: Standing) -> list[int]:
    """Checks that may come next: none twice, first those before all else, evidence before it is lost, no power on a fault."""
    return numbers(allowed(table, now) & (1 << len(table.checks)) - 1)


def allowed_remedies(table: Table, now: Standing) -> list[int]:
    """Remedies that may come next: none twice, none unproved that wants a proof, on a fault what mends it alone."""
    return numbers(allowed(table, now) >> len(table.checks))


def must_check(table: Table, now: Standing) -> bool:
    """Whether a check that comes before all else is still to be done."""
    return bool(table.first & ~now.checked)


def stop_cost(table: Table, now: Standing) -> float:
    """Minutes (times share) of stopping here: thinking, and a listed cause comes back."""
    listed = now.share - now.weights[table.unlisted]
    return now.share * table.doubt.stop_minutes + listed * table.doubt.come_back_minutes
