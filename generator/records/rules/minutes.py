"""Questions about minutes that are unlikely."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast

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


_SOAKS = ("penetrating-oil", "solvent")
"Tools after which something stands: oil creeps in, solvent dries off. The ids of content/tools.yaml."


@rule("Work with solvent or penetrating oil says how long it waits.", "failure-mode", alone=True)
def wet_work_waits(book: Book) -> Iterator[Finding]:
    for id, mode in book.records.failure_modes.items():
        wet = [tool for tool in mode.remedy.tools if tool in _SOAKS]
        if wet and mode.remedy.wait is None:
            message = f"It takes {quote(wet[0])}, and nothing says how long that creeps or dries."
            hint = 'Add `wait`, such as {minutes: 10, why: the oil creeps in}; 0 minutes and the reason, where nothing waits.'
            yield book.finding(("failure-mode", id), ("remedy", "tools"), message, hint, level="warning")


_WAITS = (
    ("check", ()),
    ("assembly", ("parts", "*", "off")),
    ("assembly", ("parts", "*", "on")),
    ("failure-mode", ("remedy",)),
)
"Kind of record, and where it may wait."


def _waits(work: object) -> tuple[float, float]:
    """Minutes of waiting, and all minutes."""
    given = cast(dict[str, Any], work)
    return given.get("wait", {}).get("minutes", 0), given.get("minutes", 0)


@rule("Waiting is within the minutes of the work.", alone=True)
def wait_within_minutes(book: Book) -> Iterator[Finding]:
    for kind, pattern in _WAITS:
        for id, record in book.content.records[kind].items():
            for route, _, work in match(record.data, pattern) if record.sound else ():
                waits, takes = _waits(work)
                if waits > takes:
                    message = f"It waits {waits:g} of its {takes:g} minutes."
                    yield book.finding((kind, id), (*route, "wait"), message, "Count the waiting in `minutes` too.")


@rule("A piece of work takes some minutes, and not half a day.", alone=True)
def minutes_are_likely(book: Book) -> Iterator[Finding]:
    for kind, pattern, most in _WHERE:
        for id, record in book.content.records[kind].items():
            for route, _, value in match(record.data, pattern) if record.sound else ():
                if isinstance(value, int | float) and not 0 < value < most:
                    message = f"{quote('minutes')} is {value:g}."
                    such = "such as 0.5 for a look" if value == 0 else "not seconds"
                    yield book.finding((kind, id), route, message, f"Is that meant? Write bench minutes, {such}.", level="warning")
