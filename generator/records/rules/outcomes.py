"""Rules about what a check can show on the machines that it is for."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.model import Check
from generator.records.rules.book import Book
from generator.records.rules.reads import FITTING, MACHINES, Reads, together
from generator.records.rules.registry import rule


@rule(
    "What an outcome fits can be wrong with some machine that the check is for.", "check",
    reads=Reads(together(MACHINES, FITTING, {"check": ("needs", "lacks")})),
)
def outcome_can_be_seen(book: Book) -> Iterator[Finding]:
    if book.content.blind or any(built.missing for _, built in book.built):
        return
    for id, check in book.records.checks.items():
        here = book.machines.meeting(check.needs, check.lacks)
        for place, modes in _fitting(book, check):
            if here and modes and not any(book.machines.some_can_have(here, mode) for mode in modes):
                names = " or ".join(quote(mode) for mode in sorted(modes)[:3])
                message = f"No family that this check is for can have {names}."
                hint = "Mend `fits`, or the check's `needs` and `lacks`."
                yield book.finding(("check", id), ("outcomes", place), message, hint, level="warning")


def _fitting(book: Book, check: Check) -> Iterator[tuple[int, frozenset[str]]]:
    """Place of an outcome, and the failure modes that stand under what it fits."""
    for place, outcome in enumerate(check.outcomes):
        yield place, frozenset().union(*(book.fits.get(fit, frozenset()) for fit in outcome.fits))
