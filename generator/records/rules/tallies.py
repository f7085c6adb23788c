"""Rules about bench tallies: what one can have counted, and that it is counted once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.model import Found
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.reads import MACHINES, TREES, Reads, together
from generator.records.rules.registry import rule


@rule(
    "A tally counts failure modes that its family can have.", "tally",
    reads=Reads(together(MACHINES, {"tally": ("family", "found", "took.*.mode")})),
)
def tally_of_what_can_be(book: Book) -> Iterator[Finding]:
    families = {family.id: (family, built) for family, built in book.built}
    for named in book.references:
        tally = book.records.tallies.get(named.record.id) if named.record.kind == "tally" else None
        if tally is None or named.target != "failure-mode" or tally.family not in families:
            continue
        family, built = families[tally.family]
        if not built.missing and not book.machines.can_have(family.id, named.id):
            can_have = [id for id in book.records.failure_modes if book.machines.can_have(family.id, id)]
            message = f"{quote(family.id)} cannot have {quote(named.id)}."
            hint = did_you_mean(named.id, can_have, "Take it out, or mend the family.")
            # A shop's own count must not stop its site when a shared family changes.
            yield book.finding(("tally", tally.id), named.route, message, hint, key=named.key, level="warning")


@rule("A shop counts the machines of a family and a period once.", "tally", reads=Reads({"tally": ("shop", "family", "period")}))
def counted_once(book: Book) -> Iterator[Finding]:
    first: dict[tuple[str | None, str, str], str] = {}
    for id, tally in book.records.tallies.items():
        if tally.period is None:
            continue
        before = first.setdefault((tally.shop, tally.family, tally.period), id)
        if before != id:
            message = f"{quote(before)} counts the same shop, family and period already, so these machines would count twice."
            yield book.finding(("tally", id), ("period",), message, "Put both in one tally, or mend the period.")


@rule("A tally finds a failure mode in no more machines than it saw.", "tally", alone=True)
def found_within_machines(book: Book) -> Iterator[Finding]:
    for id, tally in book.records.tallies.items():
        total: Counter[str] = Counter()
        for route, found in _entries(book, id):
            before, total[found.mode] = total[found.mode], total[found.mode] + found.count
            if before <= tally.machines < total[found.mode]:
                message = f"{quote(found.mode)} is found {total[found.mode]} times in {tally.machines} machines."
                hint = f"Write {tally.machines - before} or less, or mend `machines`."
                yield book.finding(("tally", id), route, message, hint)


@rule("A tally counts a failure mode once for each complaint.", "tally", alone=True)
def found_once(book: Book) -> Iterator[Finding]:
    for id in book.records.tallies:
        seen: set[tuple[str, str | None]] = set()
        for route, found in _entries(book, id):
            if (found.mode, found.symptom) in seen:
                behind = f" behind {quote(found.symptom)}" if found.symptom else ""
                message = f"{quote(found.mode)} is counted{behind} already."
                yield book.finding(("tally", id), route, message, "Put both counts into one line.")
            seen.add((found.mode, found.symptom))


@rule(
    "What a tally finds behind a complaint stands in that complaint's tree.", "tally",
    reads=Reads(together(TREES, {"tally": ("found",), "failure-mode": ()})),
)
def found_in_the_tree(book: Book) -> Iterator[Finding]:
    if "symptom" in {*book.content.blind, *book.content.unread}:
        return
    for id in book.records.tallies:
        for route, found in _entries(book, id):
            known = found.symptom in book.records.symptoms and found.mode in book.defined["failure-mode"]
            if found.symptom and known and found.mode not in book.transfers.events(found.symptom):
                message = f"{quote(found.mode)} is not in the tree of {quote(found.symptom)}, and was found behind it."
                hint = "Put it into the tree, or mend the line."
                yield book.finding(("tally", id), route, message, hint, level="warning")


@rule("A tally gives the minutes of no more jobs than it found.", "tally", alone=True)
def took_within_found(book: Book) -> Iterator[Finding]:
    for id, tally in book.records.tallies.items():
        found = Counter(dict.fromkeys((took.mode for took in tally.took), 0))
        for line in tally.found:
            found[line.mode] += line.count
        for place, took in enumerate(tally.took):
            if len(took.minutes) > found[took.mode]:
                message = f"{quote(took.mode)} is found {found[took.mode]} times, and minutes are given of {len(took.minutes)} jobs."
                yield book.finding(("tally", id), ("took", place, "minutes"), message, "Mend the count in `found`, or take minutes out.")


def _entries(book: Book, tally: str) -> Iterator[tuple[Route, Found]]:
    """Each count with the place where it stands."""
    data = book.content.records["tally"][tally].data
    by_mode = isinstance(data, dict) and isinstance(data.get("found"), dict)
    for place, found in enumerate(book.records.tallies[tally].found):
        yield ("found", found.mode) if by_mode else ("found", place, "count"), found
