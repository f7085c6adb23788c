"""The mark on pages that show what comes from a shop's own folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.family_view import FamilyView
from generator.pages.mending import record_behind
from generator.records.kinds import BY_PLACE
from generator.records.model import Records

About = tuple[str, str]
"Kind and id of a record that a page tells of."


def told_of(records: Records, address: str, of: FamilyView | None, further: Iterable[About]) -> Iterator[About]:
    """The records that a page tells of, so far as something of them is a shop's own; nearest first."""
    if records.own:
        seen = dict.fromkeys([*_behind(records, address), *_of_family(address, of), *further])
        yield from (about for about in seen if about[1] in records.own.get(about[0], {}))


def mechanisms_of(view: FamilyView, items: Iterable[str]) -> Iterator[About]:
    """The mechanisms that parts and settings of a family belong to."""
    yield from dict.fromkeys(("assembly", view.home_of[item]) for item in items if item in view.home_of)


def _behind(records: Records, address: str) -> Iterator[About]:
    """The record that a page stands for, or all of a list."""
    folder, _, name = record_behind(address).removesuffix(".yaml").rpartition("/")
    kind = BY_PLACE.get(folder or f"{name}.yaml")
    if kind and kind.is_list:
        yield from ((kind.name, id) for id in records.own.get(kind.name, {}))
    elif kind and kind.name != "shop":
        yield kind.name, name


def _of_family(address: str, of: FamilyView | None) -> Iterator[About]:
    if of:
        yield "family", of.id
        if address.startswith(("jobs/", "fasteners/")):
            yield "fasteners", of.id
