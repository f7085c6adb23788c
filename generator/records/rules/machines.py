"""What can be wrong with which family, each way round, worked out once for all rules.

A family is asked only for what sits on its own parts and settings, and a failure mode only for the families that have
it, so that work grows with the book and not with its square.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from generator.records.as_used import unmet
from generator.records.model import FailureMode, Family, Records
from generator.records.rules.built import Built

_Seat = tuple[str, str]
"`part` or `setting`, and its id."


class Machines:
    """The families of a book with their failure modes."""

    def __init__(
        self, records: Records, built: Sequence[tuple[Family, Built]], defined: Mapping[str, frozenset[str]]
    ) -> None:
        """`defined` are the ids that exist by kind, those of broken records too."""
        self._records = records
        self._built = built
        self._defined = defined
        self._meeting: dict[tuple[tuple[str, ...], tuple[str, ...]], frozenset[str]] = {}

    @cached_property
    def modes(self) -> Mapping[str, frozenset[str]]:
        """Family -> failure modes that it can have; one that sits on nothing that is known counts as possible."""
        return {family.id: self._anywhere.union(self._of(family, built)) for family, built in self._built}

    @cached_property
    def having(self) -> Mapping[str, frozenset[str]]:
        """Failure mode -> the families that can have it."""
        found: dict[str, set[str]] = {mode: set() for mode in self._records.failure_modes}
        for family, modes in self.modes.items():
            for mode in modes:
                found[mode].add(family)
        return {mode: frozenset(families) for mode, families in found.items()}

    def can_have(self, family: str, mode: str) -> bool:
        """Whether a family can have a failure mode; one that could not be read counts as possible."""
        return mode not in self._records.failure_modes or mode in self.modes[family]

    def some_can_have(self, families: frozenset[str], mode: str) -> bool:
        """Whether one of the families can have a failure mode."""
        return not families.isdisjoint(self.having.get(mode, families))

    def meeting(self, needs: Iterable[str], lacks: Iterable[str]) -> frozenset[str]:
        """The families that have every feature of the first kind and none of the second."""
        asked = (tuple(needs), tuple(lacks))
        if asked not in self._meeting:
            families = self._records.families.values()
            self._meeting[asked] = frozenset(family.id for family in families if not unmet(family.features, *asked))
        return self._meeting[asked]

    def on(self, kind: str, id: str) -> Sequence[FailureMode]:
        """Failure modes that sit on a part or setting."""
        return self._seated.get((kind, id), ())

    def _of(self, family: Family, built: Built) -> set[str]:
        seats = (*(("part", id) for id in built.parts), *(("setting", id) for id in built.settings))
        modes = (mode for seat in seats for mode in self._seated.get(seat, ()))
        return {mode.id for mode in modes if not unmet(family.features, mode.needs, mode.lacks)}

    @cached_property
    def _seated(self) -> Mapping[_Seat, list[FailureMode]]:
        found: dict[_Seat, list[FailureMode]] = defaultdict(list)
        for mode in self._records.failure_modes.values():
            for kind, id in (("part", mode.part), ("setting", mode.setting)):
                if id:
                    found[kind, id].append(mode)
        return found

    @cached_property
    def _anywhere(self) -> frozenset[str]:
        """Failure modes whose part or setting is not there."""
        parts, settings = self._defined["part"], self._defined["setting"]
        modes = self._records.failure_modes.values()
        return frozenset(m.id for m in modes if m.part not in parts and m.setting not in settings)
