"""All records together, by id."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.records.model.bench import Fastener, Shop, Tally, Technique
from generator.records.model.faults import Check, FailureMode, Symptom
from generator.records.model.lists import Caution, Feature, FigureKind, MachinePosition, Question, Source, Term, Tool
from generator.records.model.machines import Family
from generator.records.model.picture import PictureFile
from generator.records.model.settings import Assembly
from generator.records.node import Places, Route
from generator.records.own import Own
from generator.records.position import Position


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
    figures: Mapping[str, FigureKind] = field(default_factory=dict)
    "figures.yaml."
    questions: Mapping[str, Question] = field(default_factory=dict)
    "questions.yaml."
    positions: Mapping[str, MachinePosition] = field(default_factory=dict)
    "positions.yaml."
    shop: Shop = Shop()
    "shop.yaml."
    pictures: Mapping[str, PictureFile] = field(default_factory=dict)
    "Folder pictures, by the file's name; with faults too."
    own: Mapping[str, Mapping[str, Own]] = field(default_factory=dict)
    "Kind -> id -> what a later content folder says of that record; kept between runs, as `places` is not."
    places: Mapping[tuple[str, str], Places] = field(default_factory=dict)
    "(kind, id) -> where the values of that record stand; see `position_of`."

    def position_of(
        self, kind: str, id: str, route: Route = (), key: bool = False
    ) -> Position | None:
        """Where a value (or, with `key`, its key) stands, or the nearest value above it.

        `kind` is a key of `KINDS`, such as "failure-mode" or "tool"; a family's fastener notes are one
        record of kind "fasteners". None for a record that was not read.
        """
        places = self.places.get((kind, id))
        return places.of(route, key) if places else None
