"""Which families a record reaches: those of which a complaint or a job may be worked out from it.

A complaint is worked out from its family's record and tallies, its assemblies, the failure modes that sit on their parts
and settings, the trees that name those, the checks that tell of them or prove its settings, and the shop's settings.
Fastener notes, ways of working and lists give keys, words and their meaning, and no minutes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from functools import cached_property

from generator.bench.complaint import tells_of_anything
from generator.cross_references import CrossReferences
from generator.family_view import sits_on
from generator.records.model import Family


class Reach:
    """One state of the book, asked by record for families."""

    def __init__(self, library: CrossReferences) -> None:
        self.library = library
        self.records = library.records

    def families_of(self, kind: str, id: str) -> Iterable[str]:
        """The families that a record reaches; none for one that is not there."""
        match kind:
            case "family":
                return {id} & self.records.families.keys()
            case "tally":
                return {self.records.tallies[id].family} if id in self.records.tallies else ()
            case "assembly":
                return self._with_assembly(id)
            case "failure-mode":
                return self._with_modes([id])
            case "symptom":
                return self._with_modes(self.library.causes.get(id, ()))
            case "check":
                return self._with_check(id)
            case "shop":
                return self.records.families.keys()
        return ()

    @cached_property
    def proofs(self) -> Mapping[str, Set[str]]:
        """Family id -> checks that prove its settings."""
        return {family.id: self._proved_by(family) for family in self.records.families.values()}

    @cached_property
    def naming(self) -> Mapping[str, Set[str]]:
        """Failure mode id -> the symptoms that name it, transfers followed."""
        return _turned(self.library.causes)

    @cached_property
    def general(self) -> Set[str]:
        """Checks that bear on every failure mode, named or not."""
        return {check.id for check in self.records.checks.values() if tells_of_anything(check)}

    @cached_property
    def _users(self) -> Mapping[str, Set[str]]:
        """Assembly id -> families that are built from it."""
        return _turned({family.id: [use.use for use in family.assemblies] for family in self.records.families.values()})

    def _with_assembly(self, id: str) -> set[str]:
        """Families built from it, and those that have its parts from another: `fits` may name it for what sits on them."""
        assembly = self.records.assemblies.get(id)
        return {*self._users.get(id, ()), *(self._with_items([*assembly.parts, *assembly.settings]) if assembly else ())}

    def _with_items(self, items: Iterable[str]) -> set[str]:
        homes = {home for item in items for home in self.library.homes.get(item, ())}
        return {family for home in homes for family in self._users.get(home, ())}

    def _with_modes(self, modes: Iterable[str]) -> set[str]:
        known = self.records.failure_modes
        return self._with_items({sits_on(known[mode]) for mode in modes if mode in known})

    def _with_check(self, id: str) -> Iterable[str]:
        """Families with a failure mode that it tells of, or a setting that it proves."""
        if id not in self.records.checks:
            return ()
        if id in self.general:
            return self.records.families.keys()
        proved = {family for family, checks in self.proofs.items() if id in checks}
        return proved | self._with_modes(frozenset().union(*self.library.rows[id]))

    def _proved_by(self, family: Family) -> set[str]:
        changed = (change.get("proved_by") for use in family.assemblies for change in use.settings.values())
        written = (self._proofs_in.get(use.use, ()) for use in family.assemblies)
        return {str(check) for check in changed if check}.union(*written)

    @cached_property
    def _proofs_in(self) -> Mapping[str, Set[str]]:
        """Assembly id -> checks that prove its settings as it is written."""
        return {a.id: {s.proved_by for s in a.settings.values() if s.proved_by} for a in self.records.assemblies.values()}


def _turned(named: Mapping[str, Iterable[str]]) -> dict[str, set[str]]:
    """Whom each names -> by whom each is named."""
    found: dict[str, set[str]] = {}
    for one, others in named.items():
        for other in others:
            found.setdefault(other, set()).add(one)
    return found
