"""Rules about families and their fastener notes."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.model import AssemblyUse
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.built import Built
from generator.records.rules.reads import BUILT, JOINTS, Reads, together
from generator.records.rules.registry import rule

NOTED = Reads(together(BUILT, JOINTS, {"fasteners": ("*.joint",)}))


@rule("No two assemblies of a family define the same part or setting.", "family", reads=Reads(BUILT))
def defined_once_in_a_family(book: Book) -> Iterator[Finding]:
    for family, built in book.built:
        for what, group in (("part", built.parts), ("setting", built.settings)):
            for id, owners in group.items():
                if len(owners) > 1:
                    names = " and ".join(quote(owner.assembly) for owner in owners)
                    place = [use.use for use in family.assemblies].index(owners[1].assembly)
                    message = f"{names} both define the {what} {quote(id)}."
                    hint = f"Name it in the `without` of one of them, or rename one {what}."
                    yield book.finding(("family", family.id), ("assemblies", place), message, hint)


@rule("An assembly stands once in a family.", "family", alone=True)
def assembly_used_once(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        uses = [use.use for use in family.assemblies]
        for place, use in enumerate(uses):
            if use in uses[:place]:
                message = f"{quote(use)} stands in the family twice."
                yield book.finding(("family", id), ("assemblies", place), message, "Take one of the two out.")


@rule("What a family leaves out or changes is there in the assembly.", "family", reads=Reads(BUILT))
def changes_what_is_there(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for place, use in enumerate(family.assemblies):
            for route, key, name, what, known in _named(book, use):
                if name not in known:
                    message = f"{quote(use.use)} has no {what} {quote(name)}."
                    hint = did_you_mean(name, known, "Take it out, or add it to the assembly.")
                    where = ("assemblies", place, *route)
                    yield book.finding(("family", id), where, message, hint, key=key)


def _named(book: Book, use: AssemblyUse) -> Iterator[tuple[Route, bool, str, str, frozenset[str]]]:
    """Route below the use, whether its key is meant, the name, what it names, and the names there are."""
    assembly = book.records.assemblies.get(use.use)
    if assembly is None:
        return
    parts, settings = frozenset(assembly.parts), frozenset(assembly.settings)
    for number, name in enumerate(use.without):
        yield ("without", number), False, name, "part or setting", parts | settings
    for name in use.parts:
        yield ("parts", name), True, name, "part", parts
    for name in use.settings:
        yield ("settings", name), True, name, "setting", settings


@rule("Every joint of a family has a fastener note.", "fasteners", reads=NOTED)
def joints_have_notes(book: Book) -> Iterator[Finding]:
    for family, built in book.built:
        noted = {note.joint for note in book.records.fasteners.get(family.id, ())}
        missing = sorted(_joints(built) - noted - book.content.words)
        if missing and not _broken(book, family.id):
            names = ", ".join(missing[:5]) + (f" and {len(missing) - 5} more" if missing[5:] else "")
            message = f"Joints of {quote(family.id)} without a fastener note: {names}."
            hint = f"Add them in fasteners/{family.id}.yaml."
            yield book.finding(("family", family.id), (), message, hint, level="warning")


@rule("A fastener note is of a joint that its family has.", "fasteners", reads=NOTED)
def notes_are_of_joints_here(book: Book) -> Iterator[Finding]:
    for family, built in book.built:
        here = _joints(built)
        for place, note in enumerate(book.records.fasteners.get(family.id, ())):
            if not built.missing and note.joint not in here and note.joint in book.defined["joint"]:
                message = f"{quote(family.id)} has no part or setting with the joint {quote(note.joint)}."
                hint = did_you_mean(note.joint, here, "Take the note out.")
                yield book.finding(
                    ("fasteners", family.id), (place, "joint"), message, hint, level="warning"
                )


@rule("A joint has one fastener note in a family.", "fasteners", alone=True)
def joint_noted_once(book: Book) -> Iterator[Finding]:
    for id, notes in book.records.fasteners.items():
        joints = [note.joint for note in notes]
        for place, joint in enumerate(joints):
            if joint in joints[:place]:
                message = f"{quote(joint)} has a note already, number {joints.index(joint) + 1}."
                yield book.finding(("fasteners", id), (place, "joint"), message, "Keep one of the two.")


@rule("Fastener notes are named after their family.", "fasteners", reads=Reads({"family": (), "fasteners": ()}))
def notes_belong_to_a_family(book: Book) -> Iterator[Finding]:
    known = book.defined["family"]
    for id in book.content.records["fasteners"]:
        if id not in known:
            message = f"{quote(id)} is no family."
            hint = did_you_mean(id, known, "Rename the file after the family.")
            yield book.finding(("fasteners", id), (), message, hint)


_NEEDED = {"a hook or loopers": {"hook", "loopers"}, "a feed": {"feed"}}
"What makes a stitch and moves the cloth -> the roles of the mechanisms that do."


@rule("A family has a hook or loopers, and a feed.", "family", reads=Reads({"family": ("assemblies",), "assembly": ("role",)}))
def family_makes_a_stitch(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        used = [book.records.assemblies.get(use.use) for use in family.assemblies]
        roles = {assembly.role if assembly else None for assembly in used}
        for what, ways in _NEEDED.items():
            if None not in roles and not roles & ways:  # a mechanism that names no role may be it
                message = f"{quote(id)} has no {what.removeprefix('a ')}."
                hint = f"Add the mechanism to `assemblies`: one with role {' or '.join(sorted(ways))}."
                yield book.finding(("family", id), ("assemblies",), message, hint, key=True, level="warning")


def _joints(built: Built) -> frozenset[str]:
    items = [o.value for group in (built.parts, built.settings) for owners in group.values() for o in owners]
    return frozenset(joint for item in items for joint in item.joints)


def _broken(book: Book, family: str) -> bool:
    """Whether the family's notes are there and could not be read."""
    record = book.content.records["fasteners"].get(family)
    unread = family in book.content.unread.get("fasteners", ())
    return unread or (record is not None and not record.sound)
