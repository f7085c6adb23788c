"""What each family is built of, as far as rules need to know."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from generator.records.as_used import Features, as_used
from generator.records.model import (
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


def _built(records: Records, id: str, uses: Uses, features: Features | None) -> Built:
    parts: dict[str, list[Owned[Part]]] = {}
    settings: dict[str, list[Owned[Setting]]] = {}
    for user, route, use in uses:
        if use.use in records.assemblies:
            there = as_used(records.assemblies[use.use], use, features)
            for found, group in ((parts, "parts"), (settings, "settings")):
                changes: Mapping[str, Mapping[str, object]] = getattr(use, group)
                where: tuple[tuple[str, str], Route] = (user, (*route, group))
                for item in getattr(there, group).values():
                    owned = _owned(item, there.id, group, changes.get(item.id, {}), where)
                    found.setdefault(item.id, []).append(owned)
    missing = any(use.use not in records.assemblies for _, _, use in uses)
    return Built(id, parts, settings, missing)


def _owned(
    item: T, assembly: str, group: str, changes: Mapping[str, object], where: tuple[tuple[str, str], Route]
) -> Owned[T]:
    """The item with its places; `where` is the record and route of the family's changes to such items."""
    user: tuple[str, str] = where[0]
    route: Route = where[1]
    changed = {field: (user, (*route, item.id, field)) for field in changes}
    return Owned(item, assembly, ("assembly", assembly), (group, item.id), changed)
