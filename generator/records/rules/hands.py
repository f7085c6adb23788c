"""A rule about hands at the needle: a check with power has it off before they go in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_HANDS = re.compile(
    r"\b(?:needles? out|threads? out|no thread|thread off|afresh|(?:one colour|white thread) above|new white thread|wiped|new needle"
    r"|foot off|(?:satin|own|right) foot on|slide plate open|bobbin (?:out|in)|case out|knot it|your own (?:bobbin|case)|thread the)\b",
    re.IGNORECASE,
)
"Words by which a text brings hands to needle, thread, foot or hook."

_OFF = re.compile(r"\bunplug|\bplug out|\bswitch(?:ed)? off|\b(?:power|supply|motor) off|\bstanding still", re.IGNORECASE)
"Words by which a text has the power off."


@rule("A check with power has it off before hands go to needle, thread, foot or hook.", "check", alone=True)
def hands_in_with_power_off(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        hands = _HANDS.search(check.how) if check.power == "on" else None
        if hands and not _OFF.search(check.how, 0, hands.start()):
            message = f"The text says {quote(hands[0])}, and the power is not off before it."
            yield book.finding(("check", id), ("how",), message, "Begin with 'Unplug' or 'Switched off', and say when power comes.")
