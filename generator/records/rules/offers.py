"""A rule about what a symptom offers: no check for it that tells nothing of it, and no row that it cannot show."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.records.as_used import unmet
from generator.records.finding import Finding, quote
from generator.records.model import Check, Family
from generator.records.rules.book import Book
from generator.records.rules.family_parts import Built, built_families, has_mode
from generator.records.rules.registry import rule

Machines = Sequence[tuple[Family, Built]]
"Every family with what it is built of."


@rule("A symptom offers no check and no row that no family can show with it.", "check")
def symptom_offers_what_can_show(book: Book) -> Iterator[Finding]:
    machines = list(built_families(book.records))
    for id, check in book.records.checks.items():
        if not check.only_for or set(check.only_for) - book.records.symptoms.keys():
            continue
        shown = {symptom: _can_show(book, machines, check, symptom) for symptom in check.only_for}
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


def _can_show(book: Book, machines: Machines, check: Check, symptom: str) -> frozenset[str]:
    """Failure modes that can show as the symptom on some family that the check is for."""
    record, causes = book.records.symptoms[symptom], book.transfers.events(symptom)
    families = [
        (family, built)
        for family, built in machines
        if not unmet(family.features, (*check.needs, *record.needs), (*check.lacks, *record.lacks))
    ]
    return frozenset(m for m in causes if any(has_mode(book, family, built, m) for family, built in families))
