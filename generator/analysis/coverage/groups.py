"""The dependency matrix, the groups that no check separates, and how much they isolate."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from math import fsum

from generator.analysis.check_order.case import Case, Hypothesis


@dataclass(frozen=True, slots=True)
class Matrix:
    """Which outcome of each check each hypothesis shows."""

    hypotheses: tuple[str, ...]
    "Ids, in the order of the case."
    checks: tuple[str, ...]
    "Ids, in the order of the case."
    rows: tuple[tuple[int, ...], ...]
    "A row for each hypothesis, an outcome for each check."


def matrix(case: Case) -> Matrix:
    """The dependency matrix of a case.

    >>> from generator.analysis.coverage.example import CASE
    >>> matrix(CASE).rows
    ((0, 1), (0, 1), (1, 0), (1, 1))
    """
    rows = tuple(tuple(c.sees[h.id] for c in case.checks) for h in case.hypotheses)
    return Matrix(tuple(h.id for h in case.hypotheses), tuple(c.id for c in case.checks), rows)


@dataclass(frozen=True, slots=True)
class Group:
    """Hypotheses that show the same in every check."""

    hypotheses: tuple[Hypothesis, ...]
    "In the order of the case; one alone is a group too."
    cured_by: str | None
    "The first check whose trial cures every one of them."

    @property
    def weight(self) -> float:
        """Share of the case."""
        return fsum(h.share for h in self.hypotheses)

    @property
    def size(self) -> int:
        """How many hypotheses are taken for one another."""
        return len(self.hypotheses)

    @property
    def remedies(self) -> tuple[str, ...]:
        """Ids of their remedies, each once."""
        return tuple(dict.fromkeys(h.remedy.id for h in self.hypotheses))

    @property
    def remedy_size(self) -> int:
        """How many remedies are in question: one where a trial cures them all."""
        return 1 if self.cured_by else len(self.remedies)


def ambiguity_groups(case: Case) -> tuple[Group, ...]:
    """The hypotheses parted into groups that no check separates, in the order of the case.

    >>> from generator.analysis.coverage.example import CASE
    >>> [[h.id for h in g.hypotheses] for g in ambiguity_groups(CASE)]
    [['bent', 'blunt'], ['late'], ['burr']]
    """
    by_row: dict[tuple[int, ...], list[Hypothesis]] = {}
    for hypothesis, row in zip(case.hypotheses, matrix(case).rows, strict=True):
        by_row.setdefault(row, []).append(hypothesis)
    return tuple(Group(tuple(alike), _cured_by(case, row)) for row, alike in by_row.items())


def _cured_by(case: Case, row: tuple[int, ...]) -> str | None:
    cures = (c.id for c, outcome in zip(case.checks, row, strict=True) if outcome in c.cured)
    return next(cures, None)


def isolated(groups: Collection[Group], most: int) -> float:
    """Isolated fraction to groups of at most `most` causes, by weight; 1 where there is no group.

    >>> from generator.analysis.coverage.example import CASE
    >>> [round(isolated(ambiguity_groups(CASE), n), 3) for n in (1, 2)]
    [0.5, 1.0]
    """
    return _fraction([g for g in groups if g.size <= most], groups)


def isolated_to_remedies(groups: Collection[Group], most: int) -> float:
    """The same to groups of at most `most` remedies: what one remedy cures needs no telling apart.

    >>> from generator.analysis.coverage.example import CASE
    >>> isolated_to_remedies(ambiguity_groups(CASE), 1)
    1.0
    """
    return _fraction([g for g in groups if g.remedy_size <= most], groups)


def _fraction(kept: Collection[Group], groups: Collection[Group]) -> float:
    if len(kept) == len(groups):
        return 1.0
    return fsum(g.weight for g in kept) / fsum(g.weight for g in groups)


def silent_checks(case: Case) -> tuple[str, ...]:
    """Checks that change nothing whatever is wrong: one outcome for all, and it cures nobody."""
    shown = ((c, set(c.sees.values())) for c in case.checks)
    return tuple(c.id for c, outcomes in shown if len(outcomes) == 1 and not outcomes & c.cured)
