"""Waiting that the words tell of is counted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.model import Wait
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_TOLD = re.compile(r"\bwait\b|\b(two|five|ten|twenty|\d+) minutes\b|\ban hour's\b", re.IGNORECASE)
"Words that tell of waiting."

_Work = tuple[tuple[str, str], Route, str | None, Wait | None]
"Record, place of its words, the words, the wait."


@rule("Work that tells of waiting counts it.", alone=True)
def told_waits_count(book: Book) -> Iterator[Finding]:
    for record, route, how, wait in _work(book):
        told = _TOLD.search(how or "")
        if told and wait is None:
            message = f"It says {quote(told[0])}, and no `wait` counts that."
            hint = "Add `wait`, such as {minutes: 5, why: the motor cools}, or say it without."
            yield book.finding(record, route, message, hint, level="warning")


def _work(book: Book) -> Iterator[_Work]:
    for id, mode in book.records.failure_modes.items():
        yield ("failure-mode", id), ("remedy", "how"), mode.remedy.how, mode.remedy.wait
    for id, assembly in book.records.assemblies.items():
        for part in assembly.parts.values():
            for name, move in (("off", part.off), ("on", part.on)):
                yield ("assembly", id), ("parts", part.id, name, "how"), move.how, move.wait
