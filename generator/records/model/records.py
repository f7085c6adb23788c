"""All records together, by id."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.records.model.bench import Fastener, Shop, Tally, Technique
from generator.records.model.faults import Check, FailureMode, Symptom
from generator.records.model.lists import Caution, Feature, Source, Term, Tool
from generator.records.model.machines import Family
from generator.records.model.settings import Assembly
from generator.records.position import Position

Path = tuple[str | int, ...]
"Keys and list indices from the top of a record to a value."


@dataclass(frozen=True, slots=True)
class Records:
    """Every good record by id, each mapping sorted by id."""

    families: Mapping[str, Family] = field(default_factory=dict)
    "Folder families."
    assemblies: Mapping[str, Assembly] = field(default_factory=dict)
    "Folder assemblies."
    symptoms: Mapping[str, Symptom] = field(default_factory=dict)
    "Folder symptoms."
    failure_modes: Mapping[str, FailureMode] = field(default_factory=dict)
    "Folder failure-modes."
    checks: Mapping[str, Check] = field(default_factory=dict)
    "Folder checks."
    fasteners: Mapping[str, tuple[Fastener, ...]] = field(default_factory=dict)
    "Family id -> its fastener notes in the record's order."
    tallies: Mapping[str, Tally] = field(default_factory=dict)
    "Folder bench."
    techniques: Mapping[str, Technique] = field(default_factory=dict)
    "Folder techniques."
    tools: Mapping[str, Tool] = field(default_factory=dict)
    "tools.yaml."
    cautions: Mapping[str, Caution] = field(default_factory=dict)
    "cautions.yaml."
    glossary: Mapping[str, Term] = field(default_factory=dict)
    "glossary.yaml."
    sources: Mapping[str, Source] = field(default_factory=dict)
    "sources.yaml."
    features: Mapping[str, Feature] = field(default_factory=dict)
    "features.yaml."
    shop: Shop = Shop()
    "shop.yaml."
    positions: Mapping[tuple[str, str], Mapping[Path, Position]] = field(default_factory=dict)
    "(kind, id) -> path in the record -> where that value stands; see `position_of`."

    def position_of(self, kind: str, id: str, path: Path = ()) -> Position | None:
        """Where a value stands, or the nearest value above it; None for a record that is not there.

        `kind` is the record's kind as in `Kind.name`, such as "failure-mode" or "tool".
        """
        places = self.positions.get((kind, id), {})
        while path and path not in places:
            path = path[:-1]
        return places.get(path)
