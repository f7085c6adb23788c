"""Rules about fastener notes: what the standards and geometry say of them."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.fasteners.flats import flat_depth, flat_width
from generator.records.finding import Finding
from generator.records.model import Fastener
from generator.records.rules.book import Book
from generator.records.rules.registry import rule
from generator.standards.agreement import disagreement
from generator.standards.quantity import Quantity


@rule("A key agrees with the standard for its thread, or the record says why not.", "fasteners", alone=True)
def fastener_key(book: Book) -> Iterator[Finding]:
    """A key that is not the standard's for its thread, unless the record says why."""
    for family, number, note in _notes(book):
        if not (note.thread and note.drive):
            continue
        where = ("fasteners", family), (number, "drive")
        try:
            said = disagreement(note.thread, note.kind, note.drive)
        except ValueError as error:
            yield book.finding(where[0], (number, "thread"), *_fault_and_mend(error), level="warning")
            continue
        if said and not note.key_confirmed:
            hint = "If the key was tried, add `key_confirmed: true` and `key_reason:`."
            yield book.finding(*where, said[0].upper() + said[1:], hint, level="warning")
        if note.key_confirmed and not said:
            message = "The key agrees with the standard, so there is nothing to confirm."
            yield book.finding(where[0], (number, "key_confirmed"), message, "Take out `key_confirmed:` and `key_reason:`.", key=True)


@rule("A flat goes on its shaft.", "fasteners", alone=True)
def fastener_flat(book: Book) -> Iterator[Finding]:
    """A flat that does not go on its shaft."""
    for family, number, note in _notes(book):
        if note.flat is None or note.shaft is None:
            continue
        shaft = Quantity.parse(note.shaft).number("mm")
        try:
            if note.flat.width:
                flat_depth(shaft, Quantity.parse(note.flat.width).number("mm"))
            else:
                flat_width(shaft, Quantity.parse(note.flat.depth or "").number("mm"))
        except ValueError as error:
            yield book.finding(("fasteners", family), (number, "flat"), *_fault_and_mend(error))


def _fault_and_mend(error: ValueError) -> tuple[str, str]:
    """What is wrong, and the mend that most of the standards' refusals name after a colon."""
    fault, _, mend = str(error).partition(": ")
    return _sentence(fault), _sentence(mend or "measure it again")


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "?")) else ".")


def _notes(book: Book) -> Iterator[tuple[str, int, Fastener]]:
    """Family, place in its file, note."""
    for family, notes in book.records.fasteners.items():
        for number, note in enumerate(notes):
            yield family, number, note
