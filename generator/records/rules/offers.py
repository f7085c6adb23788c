"""A rule about what a symptom offers: no check for it that tells nothing of it, and no row that it cannot show."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.model import Check
from generator.records.rules.book import Book
from generator.records.rules.reads import FITTING, MACHINES, Reads, together
from generator.records.rules.registry import rule

READS = Reads(together(MACHINES, FITTING, {"check": ("needs", "lacks", "only_for"), "symptom": ("needs", "lacks")}))


@rule("A symptom offers no check and no row that no family can show with it.", "check", reads=READS)
def symptom_offers_what_can_show(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        if not check.only_for or any(symptom not in book.records.symptoms for symptom in check.only_for):
            continue
        shown = {symptom: _can_show(book, check, symptom) for symptom in check.only_for}
        rows = [frozenset(m for fit in o.fits for m in book.fits.get(fit, ())) for o in check.outcomes]
        for place, symptom in enumerate(check.only_for):
            if all(row.isdisjoint(shown[symptom]) for row in rows):
                message = f"Nothing that this check tells apart can show as {quote(symptom)}."
                yield book.finding(("check", id), ("only_for", place), message, "Take it out, or put the cause into the tree.")
        for place, row in enumerate(rows):
            if row and all(row.isdisjoint(modes) for modes in shown.values()):
                message = "No complaint that the check is for has a cause of this row."
                hint = "Take the row out, or name the complaint in `only_for`."
                yield book.finding(("check", id), ("outcomes", place), message, hint)


def _can_show(book: Book, check: Check, symptom: str) -> frozenset[str]:
    """Failure modes that can show as the symptom on some family that the check is for."""
    record, causes = book.records.symptoms[symptom], book.transfers.events(symptom)
    families = book.machines.meeting((*check.needs, *record.needs), (*check.lacks, *record.lacks))
    return frozenset(m for m in causes if book.machines.some_can_have(families, m))
