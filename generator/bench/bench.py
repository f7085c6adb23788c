"""The bench: a library with what was worked out from it so far."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from generator.analysis import minutes
from generator.analysis.check_order import Solution
from generator.analysis.coverage import MissingCheck
from generator.analysis.doubt.worklist import Worklist, worklist
from generator.analysis.machine import Machine, Remedy
from generator.bench.cache import DiagnosisCache
from generator.bench.closing import closing_minutes
from generator.bench.complaint import Complaint, complaint
from generator.bench.diagnosed import Diagnosed
from generator.bench.machines import machine
from generator.bench.recorded import Recorded, recorded
from generator.bench.remedies import remedies
from generator.bench.trees import family_tree
from generator.family_view import FamilyView
from generator.library import Library
from generator.watched import Known, Token, Traced, Watched

if TYPE_CHECKING:
    from generator.analysis.job.types import Practice
    from generator.bench.jobs import Job


T = TypeVar("T")


class Bench:
    """Works out, once each, what pages and commands ask for; everything is deterministic."""

    def __init__(self, library: Library, cache: Path | None = None) -> None:
        self.library = library
        self._cache = DiagnosisCache(cache)
        watch, records = library.watch, library.records
        self._machines = Known(watch, "bench.machine", lambda id: machine(library.for_family(id), records.shop))
        self._closing = Known(watch, "bench.closing", lambda id: closing_minutes(library.for_family(id).family, records.shop))
        self._practices = Known(watch, "bench.practice", self._practice)
        self._remedies = Known(watch, "bench.remedies", self._remedies_of, self._is_family)
        self._sheets = Known(watch, "bench.sheets", self._sheets_of, self._is_family)
        self._served = Known(watch, "bench.served", self._served_of, self._is_family)
        self._complaints = Known(watch, "bench.complaint", self._complaint, self._complaint_told, dear=True)
        self._diagnosed = Known(watch, "bench.diagnosed", self._diagnose, self._order_told, dear=True)
        self._worklists = Known(watch, "bench.worklist", self._worklist, self._order_told, dear=True)
        self._names: dict[str, str] = {}
        watch.fills(self._every_map)
        self._jobs: Traced[tuple[str, tuple[Remedy, ...]], Job] = Traced(watch)

    def machine(self, view: FamilyView) -> Machine:
        """The family's parts and settings with their minutes."""
        return self._machines(view.id)

    def practice(self, view: FamilyView) -> Practice:
        """How the family's parts and settings are handled."""
        return self._practices(view.id)

    def remedies(self, view: FamilyView) -> Mapping[str, Remedy]:
        """Failure mode id -> its remedy on the family."""
        return self._remedies(view.id)

    def complaint(self, view: FamilyView, symptom_id: str) -> Complaint:
        """One of the family's symptoms. Raises KeyError for one that it does not have."""
        self.library.for_family(view.id)  # who reads a complaint reads its family
        return self._complaints(_pair(view, symptom_id))

    def complaints(self) -> Iterator[Complaint]:
        """Every family with every symptom that it can have, by id."""
        for view in self.library.views:
            yield from self.complaints_of(view.id)

    def complaints_of(self, family: str) -> Iterator[Complaint]:
        """A family with every symptom that it can have, by id. Raises KeyError for an id that is no family's."""
        view = self.library.for_family(family)
        for symptom in sorted(view.symptoms):
            yield self.complaint(view, symptom)

    def diagnosed(self, complaint: Complaint) -> Diagnosed:
        """The order of checks for a complaint."""
        return self._diagnosed(complaint.pair)

    def certain(self, complaint: Complaint) -> Solution:
        """The order of checks if nothing could deceive: what is told apart is reckoned with it."""
        return self._cache.certain(complaint.doubt)

    def missing(self, complaint: Complaint, solution: Solution, asked: Sequence[tuple[str, ...]]) -> tuple[MissingCheck, ...]:
        """The check that a complaint lacks most, for each set of its hypotheses; `solution` is that of `certain`."""
        return self._cache.missing(complaint.doubt, solution, asked)

    def diagnose_all(self, say: Callable[[str], None], as_before: Callable[[Token], bool] = lambda _: False) -> None:
        """Works out the order of checks of every complaint of which none is kept, on every core; `say` is told how far it is.

        Complaints of which a value, `as_before`, is the same as for the site that stands have had their orders worked out then.
        """
        pairs = [_pair(view, symptom) for view in self.library.views for symptom in sorted(view.symptoms)]
        asked = [pair for pair in pairs if not as_before((self._complaints.name, pair))]
        solved = self._cache.solved([self._complaints(pair).doubt for pair in asked], say)
        for number, diagnosed in solved.items():
            self._diagnosed.put(asked[number], diagnosed)

    def sheet_of(self, view: FamilyView, remedy_id: str) -> str:
        """The failure mode under whose name the remedy's job sheet stands; empty for a joint remedy.

        Failure modes with the same remedy share the sheet of the first of them.
        """
        return self._sheets(view.id).get(remedy_id, "")

    def job(self, view: FamilyView, remedies: Iterable[Remedy]) -> Job:
        """One visit to the bench for all the remedies. Raises ValueError where there are none."""
        asked = tuple(remedies)
        return self._jobs((view.id, asked), lambda: self._job(view, asked))

    def recorded(self, view: FamilyView, remedy: Remedy) -> Recorded | None:
        """What the shop's own jobs with the remedy took; None where too few are known."""
        return recorded(view, tuple(self._serves(view, (remedy,))), self.library.records.shop)

    def worklist(self, complaint: Complaint) -> Worklist:
        """The checks of a complaint as a list to work down."""
        return self._worklists(complaint.pair)

    def closing_minutes(self, view: FamilyView) -> float:
        """What every job on the family ends in: its closing tests, or one proving sew where there are none."""
        return self._closing(view.id)

    def whole_minutes(self, view: FamilyView, remedy: Remedy) -> float:
        """The whole job for a remedy: from a closed machine to a proved one."""
        return minutes.remedy(self.machine(view), remedy, self.closing_minutes(view))

    def _every_map(self) -> None:
        for view in self.library.views:
            for known in (self._remedies, self._sheets, self._served):
                known(view.id)

    def _serves(self, view: FamilyView, asked: Iterable[Remedy]) -> dict[str, Remedy]:
        """Failure mode id -> its remedy, of those that these remedies put right; by id."""
        served, serving = self._served(view.id), self.remedies(view)
        modes = sorted({mode for remedy in asked for mode in served.get(remedy.id, ())})
        return {mode: serving[mode] for mode in modes if serving[mode] in asked}

    def _practice(self, family: str) -> Practice:
        from generator.bench.practices import (
            practice,  # the job plan is slow to load, and few ask for it
        )

        records = self.library.records
        return practice(self.library.for_family(family), records.shop, records.tools)

    def _job(self, view: FamilyView, asked: tuple[Remedy, ...]) -> Job:
        from generator.bench.jobs import job  # see `_practice`

        records, handled = self.library.records, (self.machine(view), self.practice(view), self.closing_minutes(view))
        return job(view, *handled, asked, self._serves(view, asked), records.shop, records.tools)

    def _is_family(self, id: str) -> bool:
        """What there is to say of a map that is watched itself, key by key."""
        return id in self.library.records.families

    def _remedies_of(self, family: str) -> Mapping[str, Remedy]:
        return self._map("remedies", family, remedies(self.library.for_family(family)))

    def _sheets_of(self, family: str) -> Mapping[str, str]:
        found: dict[str, str] = {}
        for mode, remedy in sorted(self._remedies(family).items()):
            found.setdefault(remedy.id, mode)
        return self._map("sheets", family, found)

    def _served_of(self, family: str) -> Mapping[str, tuple[str, ...]]:
        """Remedy id -> the failure modes that it puts right."""
        found: dict[str, list[str]] = {}
        for mode, remedy in sorted(self._remedies(family).items()):
            found.setdefault(remedy.id, []).append(mode)
        return self._map("served", family, {id: tuple(modes) for id, modes in found.items()})

    def _map(self, name: str, family: str, items: Mapping[str, T]) -> Mapping[str, T]:
        return Watched(self.library.watch, f"bench.{name}.{family}", items)

    def _complaint(self, pair: str) -> Complaint:
        family, _, symptom_id = pair.partition("/")
        view = self.library.for_family(family)
        symptom = view.symptoms[symptom_id]
        folded = family_tree(self.library, view, symptom)
        return complaint(self.library, view, symptom, folded, self.machine(view), self.remedies(view))

    def _complaint_told(self, pair: str) -> tuple[object, ...]:
        """A complaint without its view, which is watched itself; its order's name stands for its case."""
        found = self._complaints(pair)
        rest = (getattr(found, f.name) for f in fields(found) if f.name not in ("view", "case", "doubt"))
        return (self._order_told(pair), *rest)

    def _diagnose(self, pair: str) -> Diagnosed:
        return self._cache.diagnosed(self._complaints(pair).doubt)

    def _order_told(self, pair: str) -> str:
        asked = self._complaints(pair)  # each time: who is told the name of an order has read its complaint
        if pair not in self._names:
            self._names[pair] = self._cache.name(asked.doubt)
        return self._names[pair]

    def _worklist(self, pair: str) -> Worklist:
        return worklist(self._complaints(pair).doubt, self._diagnosed(pair).order.policy)


def _pair(view: FamilyView, symptom_id: str) -> str:
    return f"{view.id}/{symptom_id}"
