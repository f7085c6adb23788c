"""Rules about ids and what they point to."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, partial

from generator.records.finding import Finding, did_you_mean, printable, quote
from generator.records.ids import odd_letter, slug
from generator.records.kinds import KINDS
from generator.records.references import FITS, Reference
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_NAME = re.compile(r"[a-z0-9]+([-_./][a-z0-9]+)*")
_GATE = re.compile(r"[a-z0-9-]+/[a-z0-9-]+")


@rule("A file's name is the record's id: lower-case words joined by hyphens.", alone=True)
def file_name_is_id(book: Book) -> Iterator[Finding]:
    for kind, by_id in book.content.records.items():
        if KINDS[kind].is_list:
            continue
        for id in by_id:
            if not _ID.fullmatch(id):
                message = f"The file name {quote(id)} is no id.{odd_letter(id)}"
                name = quote((slug(id) or "name-of-the-record") + ".yaml")
                hint = f"Rename the file to {name}: lower-case words joined by hyphens."
                yield book.finding((kind, id), (), message, hint)


@rule("Everything that a record names exists.", alone=True)
def names_exist(book: Book) -> Iterator[Finding]:
    hint = cache(partial(_hint, book))  # to look for the nearest id is dear, and what is gone is often named many times
    for reference in book.references:
        kinds = FITS if reference.target == "fit" else (reference.target,)
        if not any(_exists(book, kind, reference.id) for kind in kinds) and _could_exist(reference):
            what = "failure mode, gate, part, setting or assembly" if len(kinds) > 1 else _NOUNS[kinds[0]]
            where = (reference.record.kind, reference.record.id)
            message = f"{quote(reference.id)} is no {what}."
            yield book.finding(where, reference.route, message, hint(reference.id, kinds), key=reference.key)


def _could_exist(reference: Reference) -> bool:
    """Whether a name has the shape of one; the schema says so where it has not."""
    shape = _GATE if reference.target == "gate" else _NAME
    return bool(shape.fullmatch(reference.id))


def _exists(book: Book, kind: str, id: str) -> bool:
    """Whether it exists, or may exist in a file that could not be read."""
    return id in book.defined[kind] or id.rpartition("/")[2] in book.content.words or _hidden(book, kind)


def _hidden(book: Book, kind: str) -> bool:
    """Whether a file that could define such ids could not even be opened."""
    return _OWNERS.get(kind, kind) in book.content.blind


_OWNERS = {"part": "assembly", "setting": "assembly", "joint": "assembly", "gate": "symptom"}
"Kinds that live inside records of another kind."

_NOUNS = {kind: entry.noun for kind, entry in KINDS.items()} | {
    "part": "part",
    "setting": "setting",
    "joint": "joint of any part or setting",
    "gate": "gate",
}


def _hint(book: Book, id: str, kinds: tuple[str, ...]) -> str:
    known = frozenset().union(*(book.defined[kind] for kind in kinds))
    return did_you_mean(id, known, _mend(book, id, kinds))


def _mend(book: Book, id: str, kinds: tuple[str, ...]) -> str:
    other = next((kind for kind, ids in book.defined.items() if id in ids), None)
    if other:
        return f"There is a {other} of that name: mend the id, or name it where a {other} belongs."
    if len(kinds) > 1:
        return "Mend the id, or add what it names."
    if kinds[0] in _HOMES:
        return f"Mend the id, or {_HOMES[kinds[0]]}."
    file = KINDS[kinds[0]].file_for(id).as_posix()
    return f"Mend the id, or add it in {printable(file)}."


_HOMES = {
    "part": "add it to the `parts` of an assembly",
    "setting": "add it to the `settings` of an assembly",
    "joint": "name it in the `joints` of a part or setting",
    "gate": "give that gate its id in the symptom's tree",
}
"Kinds without a file of their own -> how to add one."
