"""Which failure modes an outcome of a check fits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.records.read import Content
from generator.records.references import Reference
from generator.records.rules.transfers import TransferGraph
from generator.records.walk import match

Thing = tuple[str, str]
"Kind and id of a part, a setting or an assembly."


@dataclass(frozen=True, slots=True)
class Fits:
    """What an entry of `fits` can stand for."""

    modes: frozenset[str]
    "Every failure mode."
    on: Mapping[Thing, frozenset[str]]
    "Part, setting or assembly -> the failure modes that sit on it."
    transfers: TransferGraph
    "What stands below each gate."

    def of(self, fit: str) -> frozenset[str]:
        """The failure modes that an entry of `fits` names, whatever kind of thing it is."""
        gates = [g for g in self.transfers.labels if fit in (g, g.partition("/")[2])]
        things = [(kind, fit) for kind in ("part", "setting", "assembly")]
        return frozenset({fit} & self.modes).union(
            *(self.on.get(thing, ()) for thing in things),
            *(self.transfers.events(gate) for gate in gates),
        )


def modes_on(content: Content, references: list[Reference]) -> dict[Thing, frozenset[str]]:
    """Part, setting or assembly -> failure modes that sit on it, in records sound or not."""
    sits = [
        ((r.target, r.id), r.record.id)
        for r in references
        if r.record.kind == "failure-mode" and r.route in (("part",), ("setting",))
    ]
    found: dict[Thing, frozenset[str]] = {}
    owners = _owners(content)
    for thing, mode in sits:
        for place in (thing, *owners.get(thing, ())):
            found[place] = found.get(place, frozenset()) | {mode}
    return found


def _owners(content: Content) -> dict[Thing, list[Thing]]:
    """Part or setting -> the assemblies that define it."""
    found: dict[Thing, list[Thing]] = {}
    for id, record in content.records["assembly"].items():
        for kind in ("part", "setting"):
            for _, _, name in match(record.data, (f"{kind}s", "*:")):
                found.setdefault((kind, str(name)), []).append(("assembly", id))
    return found
