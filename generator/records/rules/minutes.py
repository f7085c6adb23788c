"""Questions about minutes that are unlikely."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.nested import match
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_WORK, _LOOK = 240, 60
"Minutes from which one piece of work, and one check, are questioned. Common practice, no source: half a day, an hour."

_WHERE = (
    ("check", ("minutes",), _LOOK),
    ("assembly", ("parts", "*", "off", "minutes"), _WORK),
    ("assembly", ("parts", "*", "on", "minutes"), _WORK),
    ("assembly", ("settings", "*", "minutes"), _WORK),
    ("family", ("assemblies", "*", "parts", "*", "off", "minutes"), _WORK),
    ("family", ("assemblies", "*", "parts", "*", "on", "minutes"), _WORK),
    ("family", ("assemblies", "*", "settings", "*", "minutes"), _WORK),
    ("failure-mode", ("remedy", "minutes"), _WORK),
)
"Kind of record, where it gives minutes, and from how many they are questioned. A technique's may be a night's soaking."


@rule("A piece of work takes some minutes, and not half a day.")
def minutes_are_likely(book: Book) -> Iterator[Finding]:
    for kind, pattern, most in _WHERE:
        for id, record in book.content.records[kind].items():
            for route, _, value in match(record.data, pattern) if record.sound else ():
                if isinstance(value, int | float) and not 0 < value < most:
                    message = f"{quote('minutes')} is {value:g}."
                    such = "such as 0.5 for a look" if value == 0 else "not seconds"
                    yield book.finding((kind, id), route, message, f"Is that meant? Write bench minutes, {such}.", level="warning")
