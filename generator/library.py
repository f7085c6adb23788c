"""All records linked together; one family's view of them is a step away."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from generator.family_build import build_view
from generator.family_view import FamilyView, gates_of, seat
from generator.records.model import Records, TreeGate, TreeTransfer

__all__ = ["FamilyView", "Library", "seat"]


class Library:
    """Records with their cross references; `for_family` gives one family's view."""

    def __init__(self, records: Records) -> None:
        self.records = records
        self._views: dict[str, FamilyView] = {}

    def for_family(self, family_id: str) -> FamilyView:
        """The family's view. Raises KeyError for an id that is no family's."""
        if family_id not in self._views:
            self._views[family_id] = build_view(self, self.records.families[family_id])
        return self._views[family_id]

    @cached_property
    def views(self) -> tuple[FamilyView, ...]:
        """Every family's view, in order of id."""
        return tuple(self.for_family(f) for f in sorted(self.records.families))

    @cached_property
    def homes(self) -> Mapping[str, tuple[str, ...]]:
        """Part or setting id -> the assemblies that define it."""
        homes: dict[str, list[str]] = {}
        for assembly in self.records.assemblies.values():
            for item in (*assembly.parts, *assembly.settings):
                homes.setdefault(item, []).append(assembly.id)
        return {item: tuple(found) for item, found in homes.items()}

    @cached_property
    def gates(self) -> Mapping[str, TreeGate]:
        """"symptom/gate" -> the gate, for every gate that has an id."""
        return {
            f"{symptom.id}/{gate.id}": gate
            for symptom in self.records.symptoms.values()
            for gate in gates_of(symptom.tree)
            if gate.id
        }

    def modes_under(self, gate: TreeGate) -> frozenset[str]:
        """Failure modes under a gate, transfers followed."""
        found: set[str] = set()
        for node in gate.inputs:
            if isinstance(node, TreeGate):
                found |= self.modes_under(node)
            elif isinstance(node, TreeTransfer):
                found |= self.modes_under(self.gates[node.see])
            else:
                found.add(node.id)
        return frozenset(found)

    def fitted(self, reference: str) -> frozenset[str]:
        """Failure modes that an outcome's `fits` entry stands for, on any family."""
        records = self.records
        if reference in records.failure_modes:
            return frozenset({reference})
        if "/" in reference:
            gates = [self.gates[reference]] if reference in self.gates else []
        else:
            gates = [g for name, g in self.gates.items() if name.endswith(f"/{reference}")]
        found = frozenset().union(*(self.modes_under(g) for g in gates))
        items = self._items(reference)
        return found | {m.id for m in records.failure_modes.values() if seat(m) in items}

    def _items(self, reference: str) -> frozenset[str]:
        """Parts and settings that a reference stands for."""
        assembly = self.records.assemblies.get(reference)
        if assembly:
            return frozenset((*assembly.parts, *assembly.settings))
        return frozenset({reference} if reference in self.homes else ())
