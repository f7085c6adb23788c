"""Rules about bench tallies: what one can have counted, and that it is counted once."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.rules.book import Book
from generator.records.rules.family_parts import built_families, has_mode
from generator.records.rules.registry import rule


@rule("A tally counts failure modes that its family can have.", "tally")
def tally_of_what_can_be(book: Book) -> Iterator[Finding]:
    families = {family.id: (family, built) for family, built in built_families(book.records)}
    for named in book.references:
        tally = book.records.tallies.get(named.record.id) if named.record.kind == "tally" else None
        if tally is None or named.target != "failure-mode" or tally.family not in families:
            continue
        family, built = families[tally.family]
        if not built.missing and not has_mode(book, family, built, named.id):
            can_have = [id for id in book.records.failure_modes if has_mode(book, family, built, id)]
            message = f"{quote(family.id)} cannot have {quote(named.id)}."
            hint = did_you_mean(named.id, can_have, "Take it out, or mend the family.")
            # A shop's own count must not stop its site when a shared family changes.
            yield book.finding(("tally", tally.id), named.route, message, hint, key=named.key, level="warning")


@rule("A shop counts the machines of a family and a period once.", "tally")
def counted_once(book: Book) -> Iterator[Finding]:
    first: dict[tuple[str | None, str, str], str] = {}
    for id, tally in book.records.tallies.items():
        if tally.period is None:
            continue
        before = first.setdefault((tally.shop, tally.family, tally.period), id)
        if before != id:
            message = f"{quote(before)} counts the same shop, family and period already, so these machines would count twice."
            yield book.finding(("tally", id), ("period",), message, "Put both in one tally, or mend the period.")
