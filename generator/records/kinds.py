"""The kinds of record, and where each is kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.records import model


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of record."""

    name: str
    "As findings and rules name it."
    schema: str
    "The schema file's name before `.schema.json`."
    place: str
    "The folder below the content folder, or the one file that holds the list."
    shape: type
    "The class of a record; of a fastener note for `fasteners`."
    group: str
    "The field of `Records` that holds it."
    noun: str
    "For sentences."

    @property
    def is_list(self) -> bool:
        """Whether one file holds all the records, by id."""
        return self.place.endswith(".yaml") and self.name != "shop"

    @property
    def article(self) -> str:
        """What stands before the noun."""
        return "an" if self.noun[0] in "aeiou" else "a"

    def file_for(self, id: str) -> Path:
        """Where a record of this id belongs, below the content folder."""
        return Path(self.place) if self.place.endswith(".yaml") else Path(self.place, f"{id}.yaml")


_ROWS = (
    ("family", "family", "families", model.Family, "families", "family"),
    ("assembly", "assembly", "assemblies", model.Assembly, "assemblies", "assembly"),
    ("symptom", "symptom", "symptoms", model.Symptom, "symptoms", "symptom"),
    ("failure-mode", "failure-mode", "failure-modes", model.FailureMode, "failure_modes", "failure mode"),
    ("check", "check", "checks", model.Check, "checks", "check"),
    ("fasteners", "fasteners", "fasteners", model.Fastener, "fasteners", "set of fastener notes"),
    ("tally", "tally", "bench", model.Tally, "tallies", "bench tally"),
    ("technique", "technique", "techniques", model.Technique, "techniques", "technique"),
    ("tool", "tools", "tools.yaml", model.Tool, "tools", "tool"),
    ("caution", "cautions", "cautions.yaml", model.Caution, "cautions", "caution"),
    ("term", "glossary", "glossary.yaml", model.Term, "glossary", "glossary term"),
    ("source", "sources", "sources.yaml", model.Source, "sources", "source"),
    ("feature", "features", "features.yaml", model.Feature, "features", "feature"),
    ("figure", "figures", "figures.yaml", model.FigureKind, "figures", "figure"),
    ("question", "questions", "questions.yaml", model.Question, "questions", "question"),
    ("position", "positions", "positions.yaml", model.MachinePosition, "positions", "position"),
    ("shop", "shop", "shop.yaml", model.Shop, "shop", "shop"),
)

KINDS: dict[str, Kind] = {row[0]: Kind(*row) for row in _ROWS}
"Name -> kind."

BY_PLACE: dict[str, Kind] = {kind.place: kind for kind in KINDS.values()}
"Folder or list file -> kind."
