"""What this copy of the book is, when and from what it was made, and what each edition changed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from generator.edition import Edition
from generator.library import Library
from generator.pages.learn.feed import ADDRESS
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.records.model import Records

READ_ME = "READ-ME.txt"
"Beside the pages, for whoever unpacks them."


def pages(maker: Maker, edition: Edition) -> Iterator[PageText]:
    """One page, the same for the same checkout."""
    yield maker.page(
        "this-copy.html",
        "This copy",
        "this-copy.html",
        edition=edition,
        day=day(edition),
        feed=ADDRESS if any(release.month for release in edition.releases) else "",
        counts=_counts(maker.records),
        description="What this copy of the book is, and from what it was made.",
    )


def read_me(library: Library, edition: Edition) -> dict[str, str]:
    """The same in plain words, in a file of its own."""
    lines = [
        f"A bench book for sewing-machine technicians: {', '.join(_counts(library.records))}.",
        _made(edition),
        "",
        "Unpack this folder anywhere: on a computer, a stick or a phone.",
        "Open index.html in a browser. Nothing is installed and nothing is sent anywhere.",
        "this-copy.html says what this copy is, and what changed.",
        "",
    ]
    return {READ_ME: "\n".join(lines)}


def day(edition: Edition) -> str:
    """The day of the records as a reader writes it.

    >>> day(Edition("f3a1", date="2026-11-06"))
    '6 November 2026'
    """
    when = date.fromisoformat(edition.date) if edition.date else None
    return f"{when.day} {when:%B %Y}" if when else ""


def _made(edition: Edition) -> str:
    released = f"Version {edition.releases[0].title}. " if edition.releases else ""
    commit = f"Made from commit {edition.commit} of {day(edition)}" if edition.commit else "Made from records without a history"
    changed = " and changes of its own" * edition.changed
    return f"{released}{commit}{changed}; fingerprint of the records {edition.fingerprint}."


def _counts(records: Records) -> list[str]:
    counted = (
        (records.families, "machine family", "machine families"),
        (records.symptoms, "symptom", "symptoms"),
        (records.failure_modes, "failure mode", "failure modes"),
        (records.checks, "check", "checks"),
    )
    return [f"{len(group)} {one if len(group) == 1 else many}" for group, one, many in counted]
