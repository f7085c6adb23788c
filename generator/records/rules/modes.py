"""Rules about failure modes and bench tallies."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.rules.book import Book
from generator.records.rules.registry import rule


@rule("A failure mode sits on one part or one setting.", "failure-mode")
def mode_sits_on_one_thing(book: Book) -> Iterator[Finding]:
    for id, mode in book.records.failure_modes.items():
        if mode.part and mode.setting:
            message = "The failure mode gives both `part` and `setting`."
            hint = "Keep the one that fails."
            yield book.finding(("failure-mode", id), ("setting",), message, hint, key=True)
        elif not mode.part and not mode.setting:
            message, hint = "The failure mode sits on nothing.", "Add `part:` or `setting:` with an id."
            yield book.finding(("failure-mode", id), (), message, hint)


@rule("Cleaning and advice give their minutes.", "failure-mode")
def cleaning_and_advice_take_time(book: Book) -> Iterator[Finding]:
    for id, mode in book.records.failure_modes.items():
        remedy = mode.remedy
        for key, given in (("clean", remedy.clean), ("advise", remedy.advise)):
            if given and not remedy.minutes:
                message, hint = f"`{key}` gives no minutes.", "Add `minutes:` to the remedy."
                yield book.finding(("failure-mode", id), ("remedy", key), message, hint, key=True)
                break


@rule("A tally finds a failure mode in no more machines than it saw.", "tally")
def found_within_machines(book: Book) -> Iterator[Finding]:
    for id, tally in book.records.tallies.items():
        for mode, count in tally.found.items():
            if count > tally.machines:
                message = f"{quote(mode)} is found {count} times in {tally.machines} machines."
                hint = f"Write {tally.machines} or less, or mend `machines`."
                yield book.finding(("tally", id), ("found", mode), message, hint)
