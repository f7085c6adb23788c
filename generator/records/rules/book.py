"""What a rule looks at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from generator.records.finding import Finding, Level, fault
from generator.records.model import Records
from generator.records.node import Route
from generator.records.read import Content
from generator.records.references import Reference, definitions, references


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
        return definitions(self.content)

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
