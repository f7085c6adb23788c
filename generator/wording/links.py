"""Addresses and titles of records, as one page links to them."""

from __future__ import annotations

from typing import Protocol

from generator.family_view import FamilyView
from generator.library import Library
from generator.wording import words
from generator.wording.places import place, relative


class Titled(Protocol):
    """A record with a name."""

    @property
    def title(self) -> str:
        """The name that a reader sees."""


class Links:
    """Addresses and titles of records, as one page links to them."""

    def __init__(
        self, library: Library, page: str, view: FamilyView | None = None, homes: FamilyView | None = None
    ) -> None:
        """`view` is the family that the page is about; on a page of no family `homes` may lend its mechanisms."""
        self.library = library
        self.page = page
        self.view = view
        self._homes = view or homes

    def __call__(self, kind: str, record_id: str, within: str = "") -> str:
        """The address of a record from this page; a part or setting is found in its home."""
        if kind in ("part", "setting") and not within:
            within = self._home(record_id)
        return relative(place(kind, record_id, within), self.page)

    def _home(self, item: str) -> str:
        """The assembly that has a part or setting: the page's own family's, else the first."""
        if self._homes and item in self._homes.home_of:
            return self._homes.home_of[item]
        return self.library.homes[item][0]

    def to(self, address: str) -> str:
        """The address of any page from this page; `address` is from the site's root."""
        return relative(address, self.page)

    def title(self, kind: str, record_id: str) -> str:
        """The name that a reader sees."""
        if kind in ("part", "setting"):
            return self._item_title(record_id)
        if kind == "assembly" and self.view and record_id in self.view.assemblies:
            return self.view.title(kind, record_id)
        return self.library.titles.get(f"{kind}/{record_id}") or words.spaced(record_id)

    def _item_title(self, item: str) -> str:
        """The title of a part or setting: as the page's own family has it, else as its first home does."""
        if self.view and (own := self.view.titles.get(f"part/{item}") or self.view.titles.get(f"setting/{item}")):
            return own
        home = self.library.records.assemblies[self._home(item)]
        return (home.parts.get(item) or home.settings[item]).title
