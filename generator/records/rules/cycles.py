"""Rules against what comes round to itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from generator.records.finding import Finding, quote
from generator.records.model import Part, Setting
from generator.records.rules.book import Book
from generator.records.rules.built import (
    Built,
    Owned,
    built_assemblies,
)
from generator.records.rules.paths import rounds, shortest, spelled
from generator.records.rules.reads import BUILT, TREES, Reads, together
from generator.records.rules.registry import rule

PARTS = Reads(together(BUILT, {"assembly": ("parts.*.behind",)}))
SETTINGS = Reads(together(BUILT, {"assembly": ("settings.*.after", "settings.*.disturbs")}))


def _every_build(book: Book) -> Iterator[Built]:
    yield from built_assemblies(book.records)
    for _, built in book.built:
        yield built


def _blamed(built: Built, way: Sequence[str], group: str, field: str) -> tuple[tuple[str, str], tuple[str | int, ...]]:
    """The entry of a round that is named for it: one that the family's own record adds, before the assembly's."""
    owners = getattr(built, group)
    entries = [_entry(owners[one], field, other) for one, other in pairwise(way)]
    return next((entry for entry in entries if entry[0][0] == "family"), entries[0])


def _entry(
    owners: Sequence[Owned[Part]] | Sequence[Owned[Setting]], field: str, named: str
) -> tuple[tuple[str, str], tuple[str | int, ...]]:
    """Record and route of the entry that names something in a field of a part or setting."""
    owner = next(owner for owner in owners if named in getattr(owner.value, field))
    record, route = owner.place(field)
    return record, (*route, getattr(owner.value, field).index(named))


@rule("No part is behind itself.", "assembly", reads=PARTS)
def no_part_behind_itself(book: Book) -> Iterator[Finding]:
    for built in _every_build(book):
        for id, owners in built.parts.items():
            if any(id in owner.value.behind for owner in owners):
                where = _entry(owners, "behind", id)
                yield book.finding(*where, f"{quote(id)} is behind itself.", "Take it out of its `behind`.")


@rule("Parts that are behind one another come to an end.", "assembly", reads=PARTS)
def no_round_of_parts(book: Book) -> Iterator[Finding]:
    for built in _every_build(book):
        graph = {id: {b for o in owners for b in o.value.behind} for id, owners in built.parts.items()}
        for way in rounds(graph):
            where = _blamed(built, way, "parts", "behind")
            message = f"Parts are behind one another in a round: {spelled(way)}."
            yield book.finding(*where, message, "Take one of them out of a `behind`.")


@rule("Settings that follow one another come to an end.", "assembly", reads=SETTINGS)
def no_round_of_settings(book: Book) -> Iterator[Finding]:
    for built in _every_build(book):
        graph = {id: {a for o in owners for a in o.value.after} for id, owners in built.settings.items()}
        for id in sorted(id for id, after in graph.items() if id in after):
            where = _entry(built.settings[id], "after", id)
            yield book.finding(*where, f"{quote(id)} comes after itself.", "Take it out of its `after`.")
        for way in rounds(graph):
            where = _blamed(built, way, "settings", "after")
            message = f"Settings come after one another in a round: {spelled(way)}."
            yield book.finding(*where, message, "Take one of them out of an `after`.")


@rule("No setting upsets one that must be made before it.", "assembly", reads=SETTINGS)
def no_setting_upsets_an_earlier_one(book: Book) -> Iterator[Finding]:
    for built in _every_build(book):
        after = {id: {a for o in owners for a in o.value.after} for id, owners in built.settings.items()}
        for id, owners in sorted(built.settings.items()):
            for upset in sorted({d for owner in owners for d in owner.value.disturbs}):
                way = shortest(after, id, upset)
                if way:
                    yield _upsets(book, owners, upset, way)


def _upsets(
    book: Book, owners: Sequence[Owned[Setting]], upset: str, way: tuple[str, ...]
) -> Finding:
    id, by = way[0], " by way of " + ", ".join(way[1:-1]) if way[2:] else ""
    message = f"{quote(id)} upsets {quote(upset)}, and yet comes after it{by}."
    hint = "Take it out of `disturbs`, or out of the `after` that puts it first."
    return book.finding(*_entry(owners, "disturbs", upset), message, hint)


@rule("Settings that upset one another come to an end.", "assembly", reads=SETTINGS)
def no_round_of_upsets(book: Book) -> Iterator[Finding]:
    for built in _every_build(book):
        upset_by = _upset_by(built)
        for id in sorted(id for id, by in upset_by.items() if id in by):
            where = _entry(built.settings[id], "disturbs", id)
            yield book.finding(*where, f"{quote(id)} upsets itself.", "Take it out of its `disturbs`.")
        after = {id: {a for o in owners for a in o.value.after} for id, owners in built.settings.items()}
        for way in rounds({id: after[id] | upset_by[id] for id in built.settings}):
            upsets = [(first, later) for later, first in pairwise(way) if first not in after[later]]
            if upsets[1:]:  # a round with one upset alone breaks the rule before
                message = f"Settings wait for each other in a round: {spelled(way)}."
                where = _entry(built.settings[upsets[0][0]], "disturbs", upsets[0][1])
                yield book.finding(*where, message, "Take one of them out of a `disturbs`.")


def _upset_by(built: Built) -> dict[str, set[str]]:
    """Setting -> the settings that upset it."""
    found: dict[str, set[str]] = {id: set() for id in built.settings}
    for id, owners in built.settings.items():
        for upset in {d for owner in owners for d in owner.value.disturbs} & found.keys():
            found[upset].add(id)
    return found


@rule("Transfers between fault trees come to an end.", "symptom", reads=Reads(TREES))
def no_round_of_transfers(book: Book) -> Iterator[Finding]:
    graph = book.transfers
    loops = [(gate, gate) for gate, below in sorted(graph.below.items()) if gate in below]
    for way in (*loops, *rounds(graph.below)):
        see = next(graph.sees[pair] for pair in pairwise(way) if pair in graph.sees)
        message = f"Transfers lead round in a circle: {spelled(way)}."
        hint = "Take out the transfer that leads back up."
        yield book.finding((see.record.kind, see.record.id), see.route, message, hint)
