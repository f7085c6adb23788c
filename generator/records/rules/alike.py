"""Families that rules cannot tell apart: what is worked out for one of them holds for all."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from generator.records.model import Family
from generator.records.rules.built import Built

Alike = Sequence[tuple[Family, Built]]
"Families with the same features, parts, settings and failure modes, each with what it is built of, in order."


def alike(built: Sequence[tuple[Family, Built]], modes: Mapping[str, frozenset[str]]) -> tuple[Alike, ...]:
    """The families in groups, in the order of the first of each. `modes`: family -> failure modes that it can have.

    A part counts by its assembly, by what it is behind and by how the machine lies for it; a setting by its assembly.
    """
    groups: dict[Hashable, list[tuple[Family, Built]]] = {}
    for family, held in built:
        groups.setdefault((frozenset(family.features.items()), modes[family.id], _look(held)), []).append((family, held))
    return tuple(groups.values())


def _look(built: Built) -> Hashable:
    parts = ((id, tuple((o.assembly, o.value.behind, o.value.off.position) for o in owners)) for id, owners in built.parts.items())
    settings = ((id, tuple(o.assembly for o in owners)) for id, owners in built.settings.items())
    return tuple(parts), tuple(settings)
