"""All records linked together; one family's view of them is a step away."""

from __future__ import annotations

from functools import cached_property

from generator.cross_references import CrossReferences
from generator.family_build import build_view
from generator.family_view import FamilyView, sits_on
from generator.records.model import Records

__all__ = ["FamilyView", "Library", "sits_on"]


class Library(CrossReferences):
    """Records with their cross references; `for_family` gives one family's view."""

    def __init__(self, records: Records) -> None:
        super().__init__(records)
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
