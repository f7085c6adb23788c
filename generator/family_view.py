"""One family's view of all records: what it has, with its own changes, and what it has not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from generator.records.model import (
    Assembly,
    Check,
    FailureMode,
    Family,
    Fastener,
    OilPoint,
    Outcome,
    Part,
    RemedySpec,
    Setting,
    Symptom,
    Tally,
)


@dataclass(frozen=True)
class FamilyView:
    """What one family of machines has, with the family's own changes laid over its assemblies."""

    id: str
    own: Mapping[str, Family]
    "The family's record alone, by its id."
    assemblies: Mapping[str, Assembly]
    "In the family's order; parts and settings are those of this family."
    parts: Mapping[str, Part]
    "`behind`, `renew_with` and `disturbs` name only what this family has."
    settings: Mapping[str, Setting]
    "`after`, `disturbs`, `reach` and `in_place` name only what this family has."
    failure_modes: Mapping[str, FailureMode]
    not_here: Mapping[str, str]
    "Failure mode id -> why this family cannot have it, in words."
    checks: Mapping[str, Check]
    "Checks that make sense here: `reach` and `in_place` name only parts that this family has, `outcomes` what it can show."
    symptoms: Mapping[str, Symptom]
    fasteners: Mapping[str, Fastener]
    "Joint id -> its note."
    tallies: tuple[Tally, ...]
    home_of: Mapping[str, str] = field(default_factory=dict)
    "Part or setting id -> the assembly that it belongs to."
    spared: frozenset[str] = frozenset()
    "Cautions against what this family has not; the records above do without them."
    calls: Mapping[str, str] = field(default_factory=dict)
    "Word of shared records -> what it is called here; the records above have it already."
    titles: Mapping[str, str] = field(default_factory=dict)
    "Kind and id of each record above, as `check/pull-thread` -> its title: who shows a name has read nothing else of the record."
    sits: Mapping[str, str] = field(default_factory=dict)
    "Failure mode id -> the part or setting that it sits on."
    specs: Mapping[str, RemedySpec] = field(default_factory=dict)
    "Failure mode id -> what its record says is to be done: jobs rest on that, and not on how often the failure mode is met."
    outcomes: Mapping[str, tuple[Outcome, ...]] = field(default_factory=dict)
    "Check id -> what it can show here."
    check_tools: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    "Check id -> the tools that it takes."

    @property
    def family(self) -> Family:
        """The family's record; who asks for it has read it."""
        return self.own[self.id]

    @property
    def name(self) -> str:
        """The family's title."""
        return self.title("family", self.id)

    @property
    def by_hand(self) -> bool:
        """Whether the family says that it has no motor, and so no plug to pull."""
        return self.family.features.get("motor") is False

    def title(self, kind: str, id: str) -> str:
        """The name of a part, setting, failure mode, check, symptom or assembly here, or the family's. Raises KeyError for any other."""
        return self.titles[f"{kind}/{id}"]

    def seen(self, mode: str) -> float:
        """Machines in 1,000 of this family: its own rate, or the failure mode's."""
        return self.family.rates.get(mode, self.failure_modes[mode].seen)

    def needed(self, cautions: Iterable[str]) -> tuple[str, ...]:
        """The cautions that are for this family."""
        return tuple(c for c in cautions if c not in self.spared)

    def oil(self) -> Iterator[tuple[Assembly, OilPoint]]:
        """Every oil point with its assembly, in the family's order."""
        for assembly in self.assemblies.values():
            for point in assembly.oil:
                yield assembly, point


def sits_on(mode: FailureMode) -> str:
    """The part or setting that a failure mode sits on."""
    return mode.part or mode.setting or ""
