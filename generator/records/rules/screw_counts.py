"""A rule about how many screws a text speaks of."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache
from itertools import combinations

from generator.records.finding import Finding, quote
from generator.records.rules.book import Book
from generator.records.rules.reads import BUILT, Hears, Reads, together
from generator.records.rules.registry import rule

_NUMBERS = {"one": 1, "two": 2, "both": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
_NAMED = re.compile(
    rf"(?<!nip )\b({'|'.join(_NUMBERS)}) (?:(?:very |small |set |countersunk |wood )*(?:screws?|bolts?)\b(?! each| or|\w)|from\b)",
    re.IGNORECASE,
)
"A number of screws that a text names; `one from behind` goes on from the screws before it."


def _hears(book: Book) -> Hears:
    return lambda text: text if _told(text) else None


READS = Reads(
    together(BUILT, {"assembly": ("parts.*.joints",), "fasteners": ("*.joint", "*.count")}), {"assembly": ("parts.*.off.how",)}, _hears
)


@rule("The screws that a part's text counts are as many as the family's chart has.", "assembly", reads=READS)
def screws_are_as_many_as_on_the_chart(book: Book) -> Iterator[Finding]:
    for family, built in book.built:
        counts = {note.joint: note.count for note in book.records.fasteners.get(family.id, ())}
        for parts in built.parts.values():
            for part in parts:
                held = [n for joint in part.value.joints if (n := counts.get(joint))]
                told = _told(part.value.off.how or "")
                if told and held and told not in _sums(held):
                    message = f"The text counts {told} screws, and the chart of {family.title} has {' and '.join(map(str, held))}."
                    shared = book.records.assemblies[part.assembly].parts.get(part.value.id)
                    own = shared is None or shared.off.how != part.value.off.how
                    record, route = part.place("off") if own else (part.home, (*part.route, "off"))
                    hint = f"Leave the number out, or give {quote(part.value.id)} a text of its own in the family."
                    yield book.finding(record, (*route, "how"), message, hint, level="warning")


@cache
def _told(text: str) -> int:
    return sum(_NUMBERS[found[1].lower()] for found in _NAMED.finditer(text))


def _sums(held: Iterable[int]) -> set[int]:
    held = list(held)
    return {sum(some) for n in range(1, len(held) + 1) for some in combinations(held, n)}
