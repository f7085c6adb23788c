"""Rules about failure modes."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.rules.book import Book
from generator.records.rules.reads import TREES, Reads, together
from generator.records.rules.registry import rule


@rule("A failure mode sits on one part or one setting.", "failure-mode", alone=True)
def mode_sits_on_one_thing(book: Book) -> Iterator[Finding]:
    for id, mode in book.records.failure_modes.items():
        if mode.part and mode.setting:
            message = "The failure mode gives both `part` and `setting`."
            hint = "Keep the one that fails."
            yield book.finding(("failure-mode", id), ("setting",), message, hint, key=True)
        elif not mode.part and not mode.setting:
            message, hint = "The failure mode sits on nothing.", "Add `part:` or `setting:` with an id."
            yield book.finding(("failure-mode", id), (), message, hint)


@rule("Cleaning and advice give their minutes.", "failure-mode", alone=True)
def cleaning_and_advice_take_time(book: Book) -> Iterator[Finding]:
    for id, mode in book.records.failure_modes.items():
        remedy = mode.remedy
        for key, given in (("clean", remedy.clean), ("advise", remedy.advise)):
            if given and not remedy.minutes:
                message, hint = f"`{key}` gives no minutes.", "Add `minutes:` to the remedy."
                yield book.finding(("failure-mode", id), ("remedy", key), message, hint, key=True)
                break


@rule(
    "A failure mode shows only as complaints whose tree it stands in.", "failure-mode",
    reads=Reads(together(TREES, {"failure-mode": ("shows",)})),
)
def shows_in_its_trees(book: Book) -> Iterator[Finding]:
    if "symptom" in {*book.content.blind, *book.content.unread}:
        return
    for id, mode in book.records.failure_modes.items():
        for symptom in mode.shows:
            if symptom in book.records.symptoms and id not in book.transfers.events(symptom):
                message = f"{quote(id)} is not in the tree of {quote(symptom)}, so it cannot show so."
                hint = "Take it out of `shows`, or put the failure mode into that tree."
                yield book.finding(("failure-mode", id), ("shows", symptom), message, hint, key=True)
