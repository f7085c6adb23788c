"""What each family is built of, as far as rules need to know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from generator.records.build import with_changes
from generator.records.model import (
    Assembly,
    AssemblyUse,
    Family,
    Part,
    Records,
    Setting,
)
from generator.records.node import Route

T = TypeVar("T", Part, Setting)


@dataclass(frozen=True, slots=True)
class Owned(Generic[T]):
    """A part or setting as one family has it."""

    value: T
    "With the family's changes."
    assembly: str
    "Id of the assembly that defines it."
    home: tuple[str, str]
    "Kind and id of the record that defines it."
    route: Route
    "Where in that record."
    changed: Mapping[str, tuple[tuple[str, str], Route]]
    "Field -> record and route of the family's own value."

    def place(self, field: str) -> tuple[tuple[str, str], Route]:
        """Record and route of one of its fields."""
        return self.changed.get(field, (self.home, (*self.route, field)))


@dataclass(frozen=True, slots=True)
class Built:
    """A family's parts and settings; an assembly that no family changes counts as one, too."""

    id: str
    "Id of the family or assembly."
    parts: Mapping[str, Sequence[Owned[Part]]]
    "Part id -> one for each assembly that defines it."
    settings: Mapping[str, Sequence[Owned[Setting]]]
    "Setting id -> one for each assembly that defines it."
    missing: bool
    "Whether an assembly of it could not be read."


def applies(features: Mapping[str, bool], needs: Iterable[str], lacks: Iterable[str]) -> bool:
    """Whether a family with these features has what needs some features and lacks others."""
    return all(features.get(f, False) for f in needs) and not any(features.get(f, False) for f in lacks)


def built_families(records: Records) -> Iterator[tuple[Family, Built]]:
    """Every family with what it is built of."""
    for family in records.families.values():
        uses = [(("family", family.id), ("assemblies", n), u) for n, u in enumerate(family.assemblies)]
        yield family, _built(records, family.id, uses, family.features)


def built_assemblies(records: Records) -> Iterator[Built]:
    """Every assembly on its own, with all that any family could have of it."""
    for id in records.assemblies:
        yield _built(records, id, [(("assembly", id), (), AssemblyUse(id))], None)


Uses = Sequence[tuple[tuple[str, str], Route, AssemblyUse]]
"Record and route of the use, and the use."


def _built(records: Records, id: str, uses: Uses, features: Mapping[str, bool] | None) -> Built:
    parts: dict[str, list[Owned[Part]]] = {}
    settings: dict[str, list[Owned[Setting]]] = {}
    for user, route, use in uses:
        assembly = records.assemblies.get(use.use)
        if assembly:
            there = (assembly, use, user, route, features)
            _collect(parts, "parts", assembly.parts, use.parts, there)
            _collect(settings, "settings", assembly.settings, use.settings, there)
    missing = any(use.use not in records.assemblies for _, _, use in uses)
    return Built(id, parts, settings, missing)


def _collect(
    found: dict[str, list[Owned[T]]],
    group: str,
    items: Mapping[str, T],
    changes: Mapping[str, Mapping[str, object]],
    there: tuple[Assembly, AssemblyUse, tuple[str, str], Route, Mapping[str, bool] | None],
) -> None:
    assembly, use, user, route, features = there
    for id, item in items.items():
        value = with_changes(item, changes.get(id, {}))
        if id in use.without or not (features is None or applies(features, value.needs, value.lacks)):
            continue
        changed = {field: (user, (*route, group, id, field)) for field in changes.get(id, {})}
        home = ("assembly", assembly.id)
        found.setdefault(id, []).append(Owned(value, assembly.id, home, (group, id), changed))
