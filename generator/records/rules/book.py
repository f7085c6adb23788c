"""What a rule looks at."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.records.finding import Finding, Level, fault
from generator.records.model import Records, TreeGate
from generator.records.node import Route
from generator.records.read import Content
from generator.records.references import Reference, definitions, references
from generator.records.rules.fits import Fits, modes_on
from generator.records.rules.transfers import TransferGraph, transfer_graph
from generator.records.walk import strings


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
    def in_trees(self) -> frozenset[str]:
        """Failure modes that some fault tree names."""
        return frozenset().union(*self.transfers.modes.values())

    @cached_property
    def fits(self) -> Fits:
        """Which failure modes an outcome fits."""
        on = modes_on(self.content, self.references)
        return Fits(self.defined["failure-mode"], on, self.transfers)

    @cached_property
    def gates(self) -> Mapping[str, TreeGate]:
        """symptom/gate -> gate, of good symptoms."""
        return {
            f"{symptom.id}/{gate.id}": gate
            for symptom in self.records.symptoms.values()
            for gate in _gates(symptom.tree)
            if gate.id
        }

    @cached_property
    def prose(self) -> str:
        """All text outside the glossary, in lower case."""
        records = self.content.records.items()
        data = [record.data for kind, by_id in records if kind != "term" for record in by_id.values()]
        return "\n".join((*(text for _, text in strings(data)), *self.content.guides)).lower()

    def says(self, *words: str) -> bool:
        """Whether text outside the glossary uses one of these words, in any case."""
        low = (word.lower() for word in words)
        return any(w in self.prose and re.search(rf"\b{re.escape(w)}", self.prose) for w in low)

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
        return fault(at, message, hint, level)


def _gates(gate: TreeGate) -> Iterator[TreeGate]:
    yield gate
    for node in gate.inputs:
        if isinstance(node, TreeGate):
            yield from _gates(node)
