"""Who names whom: for every record, the records that rest on it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import partial

from generator.library import FamilyView, Library, sits_on
from generator.records.model import FailureMode
from generator.watched import fill, watched

Names = Mapping[str, tuple[str, ...]]
"Id -> ids of the records that name it, sorted."


def _gather(pairs: Iterable[tuple[str, str]]) -> Names:
    found: dict[str, set[str]] = defaultdict(set)
    for named, by in pairs:
        found[named].add(by)
    return {named: tuple(sorted(by)) for named, by in found.items()}


class Backlinks:
    """Reverse references of a library, each worked out once."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self.watch = library.watch
        self.watch.fills(partial(fill, self))
        self.records = library.records

    @watched
    def symptoms_of_mode(self) -> Names:
        """Failure mode -> symptoms whose tree holds it."""
        return _gather(
            (mode, s.id) for s in self.records.symptoms.values() for mode in self.library.modes_under(s.tree)
        )

    @watched
    def checks_of_mode(self) -> Names:
        """Failure mode -> checks with an outcome that names it, itself or through what it is part of."""
        return _gather(
            (mode, c.id)
            for c in self.records.checks.values()
            for o in c.outcomes
            for reference in o.fits
            for mode in self.library.fitted(reference)
        )

    @watched
    def modes_of_seat(self) -> Names:
        """Part or setting -> failure modes that sit on it."""
        return _gather((sits_on(m), m.id) for m in self.records.failure_modes.values())

    def modes_in(self, assembly: str, item: str) -> tuple[str, ...]:
        """Failure modes of a part or setting that a family built from the assembly can have."""
        modes = self.modes_of_seat.get(item, ())
        views = self.views_with(assembly)
        return tuple(m for m in modes if not views or any(m in v.failure_modes for v in views))

    def share_a_family(self, one: str, other: str) -> bool:
        """Whether two failure modes can stand on one machine; one that no family has stands with any."""
        here, there = (set(self.families_of_mode.get(m, ())) for m in (one, other))
        return not here or not there or bool(here & there)

    def homes_of_mode(self, mode: FailureMode) -> tuple[str, ...]:
        """Assemblies with what a failure mode sits on, on whose families it can be; all, where no family has it."""
        homes = self.library.homes[sits_on(mode)]
        can = set(self.families_of_mode.get(mode.id, ()))
        return tuple(h for h in homes if can & set(self.families_of_assembly.get(h, ()))) or homes

    def views_with(self, assembly: str) -> list[FamilyView]:
        """The families that are built from an assembly, by id."""
        families = self.families_of_assembly.get(assembly, ())
        return [self.library.for_family(f) for f in families]

    @watched
    def families_of_assembly(self) -> Names:
        """Assembly -> families built from it."""
        return _gather((u.use, f.id) for f in self.records.families.values() for u in f.assemblies)

    @watched
    def families_of_mode(self) -> Names:
        """Failure mode -> families that can have it."""
        return _gather((mode, v.id) for v in self.library.views for mode in v.failure_modes)

    @watched
    def families_of_symptom(self) -> Names:
        """Symptom -> families that can have it."""
        return _gather((symptom, v.id) for v in self.library.views for symptom in v.symptoms)

    @watched
    def taken_for(self) -> Names:
        """Failure mode -> failure modes that say it looks like them."""
        return _gather((k.mode, m.id) for m in self.records.failure_modes.values() for k in m.looks_like)

    @watched
    def in_front_of(self) -> Mapping[str, Names]:
        """Assembly -> part -> parts that are behind it, in the assembly or on a family that is built from it."""
        return {
            a.id: _gather(
                (front, part.id)
                for parts in (a.parts, *(view.parts for view in self.views_with(a.id)))
                for part in parts.values()
                for front in part.behind
            )
            for a in self.records.assemblies.values()
        }

    @watched
    def settings_proved(self) -> Names:
        """Check -> settings that it proves."""
        return _gather(
            (s.proved_by, s.id)
            for a in self.records.assemblies.values()
            for s in a.settings.values()
            if s.proved_by
        )

    @watched
    def users_of_technique(self) -> Mapping[str, tuple[tuple[str, str], ...]]:
        """Technique -> (kind, id) of the parts and failure modes that call on it."""
        found: dict[str, set[tuple[str, str]]] = defaultdict(set)
        for assembly in self.records.assemblies.values():
            for part in assembly.parts.values():
                for move in (part.off, part.on):
                    if move.technique:
                        found[move.technique].add(("part", part.id))
        for mode in self.records.failure_modes.values():
            if mode.remedy.technique:
                found[mode.remedy.technique].add(("failure-mode", mode.id))
        return {name: tuple(sorted(users)) for name, users in found.items()}
