"""Rules about ids and what they point to."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, printable, quote
from generator.records.kinds import KINDS
from generator.records.references import FITS, Reference
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@rule("A file's name is the record's id: lower-case words joined by hyphens.")
def file_name_is_id(book: Book) -> Iterator[Finding]:
    for kind, by_id in book.content.records.items():
        if KINDS[kind].is_list:
            continue
        for id in by_id:
            if not _ID.fullmatch(id):
                message = f"The file name {quote(id)} is no id.{_odd(id)}"
                hint = f"Rename the file to {quote(_plain(id) + '.yaml')}: lower-case words joined by hyphens."
                yield book.finding((kind, id), (), message, hint)


def _odd(id: str) -> str:
    odd = next((c for c in id if not c.isascii()), None)
    return f" It holds {unicodedata.name(odd, 'a character without a name')}." if odd else ""


def _plain(id: str) -> str:
    ascii_only = unicodedata.normalize("NFKD", id).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", ascii_only).strip("-") or "name-of-the-record"


@rule("Everything that a record names exists.")
def names_exist(book: Book) -> Iterator[Finding]:
    for reference in book.references:
        kinds = FITS if reference.target == "fit" else (reference.target,)
        if not any(_exists(book, kind, reference.id) for kind in kinds):
            yield _dangling(book, reference, kinds)


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


def _dangling(book: Book, reference: Reference, kinds: tuple[str, ...]) -> Finding:
    known = frozenset().union(*(book.defined[kind] for kind in kinds))
    what = "failure mode, gate, part, setting or assembly" if len(kinds) > 1 else _NOUNS[kinds[0]]
    message = f"{quote(reference.id)} is no {what}."
    hint = did_you_mean(reference.id, known, _mend(book, reference, kinds))
    where = (reference.record.kind, reference.record.id)
    return book.finding(where, reference.route, message, hint, key=reference.key)


def _mend(book: Book, reference: Reference, kinds: tuple[str, ...]) -> str:
    other = next((kind for kind, ids in book.defined.items() if reference.id in ids), None)
    if other:
        return f"There is a {other} of that name: mend the id, or name it where a {other} belongs."
    kind = KINDS.get(kinds[0])
    if kind is None or len(kinds) > 1:
        return "Mend the id, or add it to the record where it belongs."
    return f"Mend the id, or add it in {printable(kind.file_for(reference.id).as_posix())}."
