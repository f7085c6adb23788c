"""The bench: a library with what was worked out from it so far."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from generator.analysis.job.types import Practice
    from generator.bench.jobs import Job


class Bench:
    """Works out, once each, what pages and commands ask for; everything is deterministic."""

    def __init__(self, library: Library, cache: Path | None = None) -> None:
        self.library = library
        self._cache = DiagnosisCache(cache)
        self._diagnosed: dict[tuple[str, str], Diagnosed] = {}
        self._machines: dict[str, Machine] = {}
        self._practices: dict[str, Practice] = {}
        self._remedies: dict[str, Mapping[str, Remedy]] = {}
        self._complaints: dict[tuple[str, str], Complaint] = {}
        self._jobs: dict[tuple[str, tuple[Remedy, ...]], Job] = {}
        self._sheets: dict[str, dict[str, str]] = {}
        self._worklists: dict[tuple[str, str], Worklist] = {}

    def machine(self, view: FamilyView) -> Machine:
        """The family's parts and settings with their minutes."""
        if view.id not in self._machines:
            self._machines[view.id] = machine(view, self.library.records.shop)
        return self._machines[view.id]

    def practice(self, view: FamilyView) -> Practice:
        """How the family's parts and settings are handled."""
        from generator.bench.practices import (
            practice,  # the job plan is slow to load, and few ask for it
        )

        if view.id not in self._practices:
            records = self.library.records
            self._practices[view.id] = practice(view, records.shop, records.tools)
        return self._practices[view.id]

    def remedies(self, view: FamilyView) -> Mapping[str, Remedy]:
        """Failure mode id -> its remedy on the family."""
        if view.id not in self._remedies:
            self._remedies[view.id] = remedies(view)
        return self._remedies[view.id]

    def complaint(self, view: FamilyView, symptom_id: str) -> Complaint:
        """One of the family's symptoms. Raises KeyError for one that it does not have."""
        key = (view.id, symptom_id)
        if key not in self._complaints:
            symptom = view.symptoms[symptom_id]
            folded = family_tree(self.library, view, symptom)
            self._complaints[key] = complaint(
                self.library, view, symptom, folded, self.machine(view), self.remedies(view)
            )
        return self._complaints[key]

    def complaints(self) -> Iterator[Complaint]:
        """Every family with every symptom that it can have, by id."""
        for view in self.library.views:
            for symptom in sorted(view.symptoms):
                yield self.complaint(view, symptom)

    def diagnosed(self, complaint: Complaint) -> Diagnosed:
        """The order of checks for a complaint."""
        key = (complaint.view.id, complaint.symptom.id)
        if key not in self._diagnosed:
            self._diagnosed[key] = self._cache.diagnosed(complaint.doubt)
        return self._diagnosed[key]

    def certain(self, complaint: Complaint) -> Solution:
        """The order of checks if nothing could deceive: what is told apart is reckoned with it."""
        return self._cache.certain(complaint.doubt)

    def missing(self, complaint: Complaint, solution: Solution, asked: Sequence[tuple[str, ...]]) -> tuple[MissingCheck, ...]:
        """The check that a complaint lacks most, for each set of its hypotheses; `solution` is that of `certain`."""
        return self._cache.missing(complaint.doubt, solution, asked)

    def diagnose_all(self, say: Callable[[str], None]) -> None:
        """Works out the order of checks of every complaint, on every core; `say` is told how far it is."""
        complaints = list(self.complaints())
        solved = self._cache.all_diagnosed([c.doubt for c in complaints], say)
        for asked, diagnosed in zip(complaints, solved, strict=True):
            self._diagnosed[asked.view.id, asked.symptom.id] = diagnosed

    def sheet_of(self, view: FamilyView, remedy_id: str) -> str:
        """The failure mode under whose name the remedy's job sheet stands; empty for a joint remedy.

        Failure modes with the same remedy share the sheet of the first of them.
        """
        if view.id not in self._sheets:
            self._sheets[view.id] = {}
            for mode, remedy in sorted(self.remedies(view).items()):
                self._sheets[view.id].setdefault(remedy.id, mode)
        return self._sheets[view.id].get(remedy_id, "")

    def job(self, view: FamilyView, remedies: Iterable[Remedy]) -> Job:
        """One visit to the bench for all the remedies. Raises ValueError where there are none."""
        from generator.bench.jobs import job  # see `practice`

        asked = tuple(remedies)
        key = (view.id, asked)
        if key not in self._jobs:
            machine, practice = self.machine(view), self.practice(view)
            records = self.library.records
            self._jobs[key] = job(view, machine, practice, asked, self.remedies(view), records.shop, records.tools)
        return self._jobs[key]

    def recorded(self, view: FamilyView, remedy: Remedy) -> Recorded | None:
        """What the shop's own jobs with the remedy took; None where too few are known."""
        modes = [mode for mode, serves in self.remedies(view).items() if serves == remedy]
        return recorded(view, modes, self.library.records.shop)

    def worklist(self, complaint: Complaint) -> Worklist:
        """The checks of a complaint as a list to work down."""
        key = (complaint.view.id, complaint.symptom.id)
        if key not in self._worklists:
            self._worklists[key] = worklist(complaint.doubt, self.diagnosed(complaint).order.policy)
        return self._worklists[key]

    def whole_minutes(self, view: FamilyView, remedy: Remedy) -> float:
        """The whole job for a remedy: from a closed machine to a proved one."""
        return minutes.remedy(self.machine(view), remedy, closing_minutes(view.family, self.library.records.shop))
