"""What a rule looks at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.records.finding import Finding, Level, Spot, fault
from generator.records.fits import Fits, what_fits
from generator.records.model import Family, Records
from generator.records.nested import entries, match, texts
from generator.records.node import Route
from generator.records.read import Content, Record
from generator.records.references import Reference, definitions, references
from generator.records.rules.alike import Alike, alike
from generator.records.rules.built import Built, built_families
from generator.records.rules.machines import Machines
from generator.records.rules.prose import Key, Prose
from generator.records.rules.transfers import TransferGraph, transfer_graph
from generator.records.trees import Gates, named_gates


@dataclass(frozen=True)
class Book:
    """All that was read: as data with its faults, and as good records."""

    content: Content
    "Raw records, good and bad."
    records: Records
    "Good records only."

    @cached_property
    def references(self) -> list[Reference]:
        """Every name in every record."""
        return references(self.content)

    @cached_property
    def defined(self) -> Mapping[str, frozenset[str]]:
        """Kind -> ids that exist, those of broken records too."""
        return definitions(self.content, self.references)

    @cached_property
    def transfers(self) -> TransferGraph:
        """What stands below each named gate."""
        return transfer_graph(self.references, self.content.records["symptom"].values())

    @cached_property
    def built(self) -> tuple[tuple[Family, Built], ...]:
        """Every family with what it is built of."""
        return tuple(built_families(self.records))

    @cached_property
    def machines(self) -> Machines:
        """What can be wrong with which family."""
        return Machines(self.records, self.built, self.defined)

    @cached_property
    def alike(self) -> tuple[Alike, ...]:
        """The families in groups of such as have the same features, parts, settings and failure modes."""
        return alike(self.built, self.machines.modes)

    @cached_property
    def complaints(self) -> Mapping[str, frozenset[str]]:
        """Failure mode -> the symptoms whose trees name it, transfers followed."""
        found: dict[str, set[str]] = {}
        for symptom in self.records.symptoms:
            for mode in self.transfers.events(symptom):
                found.setdefault(mode, set()).add(symptom)
        return {mode: frozenset(symptoms) for mode, symptoms in found.items()}

    def complaints_of(self, modes: Iterable[str]) -> frozenset[str]:
        """The symptoms whose trees name one of the failure modes."""
        return frozenset().union(*(self.complaints.get(mode, ()) for mode in modes))

    @cached_property
    def in_trees(self) -> frozenset[str]:
        """Failure modes that some fault tree names."""
        return frozenset().union(*self.transfers.modes.values())

    @cached_property
    def fits(self) -> Fits:
        """Which failure modes an outcome fits."""
        under = {gate: self.transfers.events(gate) for gate in self.transfers.labels}
        return what_fits(self.defined["failure-mode"], self._sit_on(), self._owners(), under)

    def _sit_on(self) -> Iterator[tuple[str, str]]:
        """Failure modes, sound or not, with the part or setting that each sits on."""
        for r in self.references:
            if r.record.kind == "failure-mode" and r.route in (("part",), ("setting",)):
                yield r.record.id, r.id

    def _owners(self) -> dict[str, list[str]]:
        """Part or setting -> the assemblies, sound or not, that define it."""
        found: dict[str, list[str]] = {}
        for id, record in self.content.records["assembly"].items():
            for group in ("parts", "settings"):
                for _, _, name in match(record.data, (group, "*:")):
                    found.setdefault(str(name), []).append(id)
        return found

    @cached_property
    def gates(self) -> Gates:
        """symptom/gate -> gate, of good symptoms."""
        return named_gates(self.records.symptoms.values())

    @cached_property
    def told(self) -> Mapping[tuple[str, str], str]:
        """Kind and id of each record that could be read -> all its texts, one under the other."""
        records = (record for by_id in self.content.records.values() for record in by_id.values())
        return {(record.kind, record.id): "\n".join(texts(record.data)) for record in records}

    @cached_property
    def pictured(self) -> list[tuple[Record, Route, dict[str, object]]]:
        """Every entry of a record's `pictures`, at whatever depth, with its record and route."""
        records = (record for by_id in self.content.records.values() for record in by_id.values())
        return [(record, *found) for record in records for found in entries(record.data, "pictures")]

    @cached_property
    def prose(self) -> Prose:
        """All text outside the glossary."""
        told = ((key, text) for key, text in self.told.items() if key[0] != "term")
        return Prose((*told, *((("guide", ""), text) for text in self.content.guides)))

    @cached_property
    def terms(self) -> Mapping[str, Key]:
        """Glossary term that is used -> a record that says it in its text, or names it under `see`."""
        said = {id: self.prose.sayer(term.title, *term.also) for id, term in self.records.glossary.items()}
        named = {r.id: (r.record.kind, r.record.id) for r in self.references if r.target == "term"}
        return named | {id: key for id, key in said.items() if key}

    def finding(
        self,
        record: tuple[str, str],
        route: Route,
        message: str,
        hint: str,
        *,
        key: bool = False,
        level: Level = "error",
    ) -> Finding:
        """A finding at a value of a record given by kind and id, or at the value's key."""
        at = self.content.records[record[0]][record[1]].places.of(route, key)
        return fault(at, message, hint, level, Spot(*record, route, key))
