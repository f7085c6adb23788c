"""Rules about what records were called before."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.rules.book import Book
from generator.records.rules.reads import Reads
from generator.records.rules.registry import rule

_KINDS = ("symptom", "family", "assembly", "failure-mode", "check", "technique")


@rule("A former id is no record's id now, and one record's alone.", reads=Reads(dict.fromkeys(_KINDS, ("was",))))
def former_id_is_free(book: Book) -> Iterator[Finding]:
    for kind in _KINDS:
        by_id = book.content.records[kind]
        taken: dict[str, str] = {}
        for id, record in by_id.items():
            for place, old in enumerate(_was(record.data)):
                if old in by_id:
                    message = f"{quote(id)} was {quote(old)}, and there is a record of that name."
                    yield book.finding((kind, id), ("was", place), message, "Take the former id out, or the record away.")
                elif old in taken:
                    message = f"{quote(old)} is what {quote(taken[old])} was, too."
                    yield book.finding((kind, id), ("was", place), message, "Leave it in the record that stands for it now.")
                taken.setdefault(old, id)


def _was(data: object) -> list[str]:
    """The former ids, of a record with faults too."""
    said = data.get("was") if isinstance(data, dict) else None
    return [old for old in said if isinstance(old, str)] if isinstance(said, list) else []
