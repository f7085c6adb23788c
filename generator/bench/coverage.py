"""What the knowledge tells apart, over every family with every symptom that it can have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
from math import fsum
from typing import Literal

from generator.analysis.check_order import Case, Hypothesis, Solution
from generator.analysis.coverage import (
    Group,
    MissingCheck,
    ambiguity_groups,
    isolated,
    isolated_to_remedies,
    tried_in_turn,
)
from generator.analysis.fault_tree import top_probability
from generator.bench.bench import Bench
from generator.bench.complaint import Complaint
from generator.bench.diagnosed import Diagnosed
from generator.records.model import Outcome
from generator.watched import Known

SIZES = (1, 2, 3)
"Groups of at most so many causes, or remedies, for which the isolated fraction is given."
WORTH = 0.05
"Expected minutes below which a saving is not worth a word."

Why = Literal["no check separates them", "their remedies are tried in turn"]


@dataclass(frozen=True, slots=True)
class Alike:
    """Causes of one complaint that the bench does not tell apart, with several remedies."""

    why: Why
    hypotheses: tuple[Hypothesis, ...]
    best_check: MissingCheck

    @property
    def weight(self) -> float:
        """Share of the complaint."""
        return fsum(h.share for h in self.hypotheses)

    @property
    def remedies(self) -> tuple[str, ...]:
        """Ids, each once."""
        return tuple(dict.fromkeys(h.remedy.id for h in self.hypotheses))


@dataclass(frozen=True, slots=True)
class PairCoverage:
    """One symptom on one family."""

    complaint: Complaint
    diagnosed: Diagnosed
    groups: tuple[Group, ...]
    "Every cause is in one."
    alike: tuple[Alike, ...]
    missing: MissingCheck | None
    "The one check more that would help most; None where there is one remedy alone."
    chance: float
    "That a machine of the family has the symptom: the weight of the pair."
    unnamed: tuple[str, ...]
    "Hypotheses that no check names."

    def isolated(self, most: int) -> float:
        """Isolated fraction to groups of at most `most` causes."""
        return isolated(self.groups, most)

    def isolated_to_remedies(self, most: int) -> float:
        """Isolated fraction to groups of at most `most` remedies."""
        return isolated_to_remedies(self.groups, most)

    @property
    def named(self) -> float:
        """Share of the causes that at least one check names."""
        return 1 - fsum(h.share for h in self.complaint.case.hypotheses if h.id in self.unnamed)


@dataclass(frozen=True)
class Coverage:
    """All pairs together."""

    pairs: tuple[PairCoverage, ...]
    "By family, then by symptom."

    def of(self, family: str) -> Coverage:
        """One family's pairs."""
        return Coverage(tuple(p for p in self.pairs if p.complaint.view.id == family))

    @cached_property
    def families(self) -> tuple[str, ...]:
        """Ids of families that have a symptom."""
        return tuple(dict.fromkeys(p.complaint.view.id for p in self.pairs))

    def isolated(self, most: int) -> float:
        """Mean over the pairs, each weighted by how often it is met."""
        return self._mean(p.isolated(most) for p in self.pairs)

    def isolated_to_remedies(self, most: int) -> float:
        """The same by remedies."""
        return self._mean(p.isolated_to_remedies(most) for p in self.pairs)

    @property
    def named(self) -> float:
        """The same for the causes that a check names."""
        return self._mean(p.named for p in self.pairs)

    def _mean(self, values: Iterable[float]) -> float:
        chances = [p.chance for p in self.pairs]
        whole = fsum(chances)
        return fsum(c * v for c, v in zip(chances, values, strict=False)) / whole if whole else 1.0

    @property
    def alike(self) -> list[tuple[PairCoverage, Alike]]:
        """What is not told apart, the largest saving first."""
        found = [(p, a) for p in self.pairs for a in p.alike]
        return sorted(found, key=lambda f: (-round(f[1].best_check.saves_minutes, 6), -round(f[1].weight, 9)))

    @property
    def missing(self) -> list[tuple[PairCoverage, MissingCheck]]:
        """The check that each pair lacks most, the largest saving first."""
        found = [(p, p.missing) for p in self.pairs if p.missing and p.missing.saves_minutes >= WORTH]
        return sorted(found, key=lambda f: -round(f[1].saves_minutes, 6))

    @property
    def not_proved(self) -> list[PairCoverage]:
        """Pairs whose order is not proved the best, the widest gap first."""
        return sorted((p for p in self.pairs if not p.diagnosed.order.exact), key=lambda p: -gap(p))


def gap(pair: PairCoverage) -> float:
    """Minutes between the order's expected minutes and the proven lower bound."""
    return pair.diagnosed.order.expected_minutes - pair.diagnosed.order.lower_bound


class Pairs:
    """What was found of each family with each symptom, once each."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._known = Known(bench.library.watch, "coverage.pair", self._found, self._told, dear=True)

    def of(self, complaint: Complaint) -> PairCoverage:
        """What is told apart of a complaint."""
        self._bench.diagnosed(complaint)  # who reads a pair reads its complaint and its order
        return self._known(complaint.pair)

    def _found(self, pair: str) -> PairCoverage:
        family, _, symptom = pair.partition("/")
        return _pair(self._bench, self._bench.complaint(self._bench.library.for_family(family), symptom))

    def _told(self, pair: str) -> list[object]:
        """All but the complaint and its order, which are watched themselves."""
        found = self._known(pair)
        return [getattr(found, f.name) for f in fields(found) if f.name not in ("complaint", "diagnosed")]


def coverage(bench: Bench, families: Sequence[str] = (), known: Pairs | None = None) -> Coverage:
    """Coverage of the families named, or of all; what is known is not found again."""
    pairs, of = known or Pairs(bench), families or [view.id for view in bench.library.views]
    return Coverage(tuple(pairs.of(c) for family in sorted(of) for c in bench.complaints_of(family)))


def _pair(bench: Bench, complaint: Complaint) -> PairCoverage:
    case, certain = complaint.case, bench.certain(complaint)
    groups = ambiguity_groups(case)
    several = len({h.remedy.id for h in case.hypotheses}) > 1
    untold = tuple(_untold(case, certain, groups))
    asked = [case.hypotheses] * several + [hypotheses for _, hypotheses in untold]
    missing = bench.missing(complaint, certain, [tuple(h.id for h in some) for some in asked])
    return PairCoverage(
        complaint,
        bench.diagnosed(complaint),
        groups,
        tuple(Alike(why, some, best) for (why, some), best in zip(untold, missing[several:], strict=True)),
        missing[0] if several else None,
        top_probability(complaint.tree, complaint.probabilities).value,
        unnamed(complaint),
    )


def _untold(case: Case, solution: Solution, groups: tuple[Group, ...]) -> Iterator[tuple[Why, tuple[Hypothesis, ...]]]:
    """Causes that the bench does not tell apart, with several remedies, and why."""
    inseparable = [g.hypotheses for g in groups if g.remedy_size > 1]
    yield from (("no check separates them", hypotheses) for hypotheses in inseparable)
    for hypotheses in tried_in_turn(case, solution.policy):
        if not any(set(hypotheses) <= set(group) for group in inseparable):
            yield "their remedies are tried in turn", hypotheses


def unnamed(complaint: Complaint) -> tuple[str, ...]:
    """Hypotheses that show nothing of their own in any check: they are found by what is left.

    None where one remedy alone is in question, which needs no check.
    """
    if len({h.remedy.id for h in complaint.case.hypotheses}) == 1:
        return ()
    nothing = {c.id: nothing_found(complaint.view.outcomes[c.id]) for c in complaint.case.checks}
    return tuple(
        h.id
        for h in complaint.case.hypotheses
        if all(c.sees[h.id] == nothing[c.id] for c in complaint.case.checks)
    )


def nothing_found(outcomes: Sequence[Outcome]) -> int:
    """The index of the outcome that takes all causes which no other one names."""
    numbers = (n for n, outcome in enumerate(outcomes) if outcome.otherwise)
    return next(numbers, len(outcomes))
