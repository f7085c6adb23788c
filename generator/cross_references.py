"""What records name across one another, each map worked out once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Set
from dataclasses import fields, replace
from functools import partial
from itertools import compress
from typing import Any

from generator.analysis.odds import shown
from generator.family_view import sits_on
from generator.records.fits import Fits, what_fits
from generator.records.model import Check, FailureMode, Records, TreeGate, TreeTransfer
from generator.records.trees import named_gates
from generator.watched import Watch, Watched, fill, watched

TITLED = {
    "symptom": "symptoms",
    "family": "families",
    "assembly": "assemblies",
    "failure-mode": "failure_modes",
    "check": "checks",
    "technique": "techniques",
    "tool": "tools",
    "caution": "cautions",
    "term": "glossary",
    "source": "sources",
}
"Kinds of records that have a title, and where they stand among all."


class CrossReferences:
    """Records with what they name, whatever the family."""

    def __init__(self, records: Records) -> None:
        self.watch = Watch()
        self.watch.fills(partial(fill, self))
        self.records = _watched(records, self.watch)
        self._cut: dict[tuple[object, ...], Check] = {}

    @watched
    def homes(self) -> Mapping[str, tuple[str, ...]]:
        """Part or setting id -> the assemblies that define it."""
        homes: dict[str, list[str]] = {}
        for assembly in self.records.assemblies.values():
            for item in (*assembly.parts, *assembly.settings):
                homes.setdefault(item, []).append(assembly.id)
        return {item: tuple(found) for item, found in homes.items()}

    @watched
    def titles(self) -> Mapping[str, str]:
        """Kind and id of a record, as `check/pull-thread` -> its title: who shows a name has read nothing else of the record."""
        kinds = {kind: getattr(self.records, name) for kind, name in TITLED.items()}
        return {f"{kind}/{id}": record.title for kind, records in kinds.items() for id, record in records.items()}

    @watched
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

    @watched
    def causes(self) -> Mapping[str, frozenset[str]]:
        """Symptom id -> the failure modes that its tree names, transfers followed; none of its words."""
        return {s.id: self.modes_under(s.tree) for s in self.records.symptoms.values()}

    def nearest(self, causes: Set[str], symptoms: Iterable[str], most: int) -> list[str]:
        """Of these symptoms, by id, those that have the most of these causes."""
        shared = {symptom: len(causes & self.causes[symptom]) for symptom in symptoms}
        return sorted((s for s in shared if shared[s]), key=lambda s: (-shared[s], s))[:most]

    def shown(self, mode: str, symptom: str) -> float:
        """Of the machines that have a failure mode, the part that comes in with a complaint."""
        return shown(self.records.failure_modes[mode].shows, symptom, self._complaints.get(mode, 0))

    @watched
    def _complaints(self) -> Mapping[str, int]:
        """Failure mode id -> how many symptoms name it in their trees."""
        return Counter(mode for causes in self.causes.values() for mode in causes)

    def fitted(self, reference: str) -> frozenset[str]:
        """Failure modes that an outcome's `fits` entry stands for, on any family."""
        return self._fits.get(reference, frozenset())

    def sitting_on(self, items: Iterable[str]) -> list[FailureMode]:
        """Failure modes that sit on one of these parts or settings, in the order of the records."""
        found = {mode.id for item in items for mode in self._seated.get(item, ())}
        return sorted((self.records.failure_modes[id] for id in found), key=lambda mode: self._numbers[mode.id])

    @watched
    def _seated(self) -> Mapping[str, list[FailureMode]]:
        found: dict[str, list[FailureMode]] = {}
        for mode in self.records.failure_modes.values():
            found.setdefault(sits_on(mode), []).append(mode)
        return found

    @watched
    def _numbers(self) -> Mapping[str, int]:
        return {id: number for number, id in enumerate(self.records.failure_modes)}

    @watched
    def rows(self) -> Mapping[str, tuple[frozenset[str], ...]]:
        """Check id -> the failure modes that each of its outcomes fits, on any family."""
        return {
            check.id: tuple(frozenset().union(*map(self.fitted, outcome.fits)) for outcome in check.outcomes)
            for check in self.records.checks.values()
        }

    def cut(self, check: Check, parts: Set[str], modes: Set[str], expect: str | None) -> Check:
        """A check as it is on machines with these parts and failure modes; one and the same for all that are alike in it.

        It keeps the outcomes that a sound machine shows, or one with a fault that it can have.
        """
        rows = zip(check.outcomes, self.rows[check.id], strict=True)
        kept = [o.otherwise or o.good or not fits.isdisjoint(modes) for o, fits in rows]
        reach, in_place = (tuple(p for p in named if p in parts) for named in (check.reach, check.in_place))
        like = (check.id, reach, in_place, expect, *kept)
        if like not in self._cut:
            outcomes = tuple(compress(check.outcomes, kept))
            self._cut[like] = replace(check, reach=reach, in_place=in_place, expect=expect, outcomes=outcomes)
        return self._cut[like]

    def telling(self, modes: Iterable[str]) -> frozenset[str]:
        """Checks with an outcome that fits one of these failure modes."""
        return frozenset(check for mode in modes for check in self._told_by.get(mode, ()))

    @watched
    def _told_by(self) -> Mapping[str, set[str]]:
        found: dict[str, set[str]] = {}
        for check, rows in self.rows.items():
            for mode in frozenset().union(*rows):
                found.setdefault(mode, set()).add(check)
        return found

    @watched
    def _fits(self) -> Fits:
        modes = self.records.failure_modes
        under = {name: self.modes_under(gate) for name, gate in self.gates.items()}
        return what_fits(modes, ((m.id, sits_on(m)) for m in modes.values()), self.homes, under)


def _watched(records: Records, watch: Watch) -> Records:
    """The same records, each by its kind and id for whoever notes what is read; the shop's settings stand apart."""
    kinds = [f.name for f in fields(records) if f.name not in ("shop", "places")]
    watched_kinds: dict[str, Any] = {name: Watched(watch, f"records.{name}", getattr(records, name)) for name in kinds}
    return replace(records, **watched_kinds)
