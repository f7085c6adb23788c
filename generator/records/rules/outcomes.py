"""Rules about what a check can show on the machines that it is for."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.as_used import unmet
from generator.records.finding import Finding, quote
from generator.records.model import Check, Family
from generator.records.rules.book import Book
from generator.records.rules.family_parts import Built, built_families, has_mode
from generator.records.rules.registry import rule


@rule("What an outcome fits can be wrong with some machine that the check is for.", "check")
def outcome_can_be_seen(book: Book) -> Iterator[Finding]:
    machines = list(built_families(book.records))
    if book.content.blind or any(built.missing for _, built in machines):
        return
    for id, check in book.records.checks.items():
        here = [machine for machine in machines if not unmet(machine[0].features, check.needs, check.lacks)]
        for place, modes in _fitting(book, check):
            if here and modes and not any(_has_one(book, machine, modes) for machine in here):
                names = " or ".join(quote(mode) for mode in sorted(modes)[:3])
                message = f"No family that this check is for can have {names}."
                hint = "Mend `fits`, or the check's `needs` and `lacks`."
                yield book.finding(("check", id), ("outcomes", place), message, hint, level="warning")


def _fitting(book: Book, check: Check) -> Iterator[tuple[int, frozenset[str]]]:
    """Place of an outcome, and the failure modes that stand under what it fits."""
    for place, outcome in enumerate(check.outcomes):
        yield place, frozenset().union(*(book.fits.get(fit, frozenset()) for fit in outcome.fits))


def _has_one(book: Book, machine: tuple[Family, Built], modes: frozenset[str]) -> bool:
    return any(has_mode(book, *machine, mode) for mode in modes)
