"""All records linked together; one family's view of them is a step away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from generator.cross_references import CrossReferences
from generator.family_build import build_view
from generator.family_view import FamilyView, sits_on
from generator.records.model import Records
from generator.watched import Known, Watched

__all__ = ["FamilyView", "Library", "sits_on"]


class Library(CrossReferences):
    """Records with their cross references; `for_family` gives one family's view."""

    def __init__(self, records: Records) -> None:
        super().__init__(records)
        self.watch.fills(lambda: self.views)
        self._views = Known(self.watch, "view", self._view, self._own)

    def for_family(self, family_id: str) -> FamilyView:
        """The family's view. Raises KeyError for an id that is no family's."""
        return self._views(family_id)

    @property
    def views(self) -> tuple[FamilyView, ...]:
        """Every family's view, in order of id."""
        return tuple(self.for_family(f) for f in sorted(self.records.families))

    def _view(self, family_id: str) -> FamilyView:
        """A view, with what is in it watched record by record; who has read the view itself has read the rest of it."""
        view = build_view(self, self.records.families[family_id])
        held = {f.name: getattr(view, f.name) for f in fields(view)}
        maps = {name: items for name, items in held.items() if isinstance(items, Mapping)}
        seen: dict[str, Any] = {name: Watched(self.watch, f"view.{family_id}.{name}", items) for name, items in maps.items()}
        return replace(view, **seen)

    def _own(self, family_id: str) -> tuple[object, ...]:
        """What a view holds beside its maps."""
        view = self._views(family_id)
        return tuple(held for f in fields(view) if not isinstance(held := getattr(view, f.name), Mapping))
