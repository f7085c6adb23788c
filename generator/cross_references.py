"""What records name across one another, each map worked out once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import cached_property

from generator.analysis.odds import shown
from generator.family_view import sits_on
from generator.records.fits import Fits, what_fits
from generator.records.model import Records, TreeGate, TreeTransfer
from generator.records.trees import named_gates


class CrossReferences:
    """Records with what they name, whatever the family."""

    def __init__(self, records: Records) -> None:
        self.records = records

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
        return named_gates(self.records.symptoms.values())

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

    def shown(self, mode: str, symptom: str) -> float:
        """Of the machines that have a failure mode, the part that comes in with a complaint."""
        return shown(self.records.failure_modes[mode].shows, symptom, self._complaints[mode])

    @cached_property
    def _complaints(self) -> Counter[str]:
        """Failure mode id -> how many symptoms name it in their trees."""
        return Counter(mode for s in self.records.symptoms.values() for mode in self.modes_under(s.tree))

    def fitted(self, reference: str) -> frozenset[str]:
        """Failure modes that an outcome's `fits` entry stands for, on any family."""
        return self._fits.get(reference, frozenset())

    @cached_property
    def _fits(self) -> Fits:
        modes = self.records.failure_modes
        under = {name: self.modes_under(gate) for name, gate in self.gates.items()}
        return what_fits(modes, ((m.id, sits_on(m)) for m in modes.values()), self.homes, under)
