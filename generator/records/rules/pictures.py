"""Rules about photographs and drawings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.rules.book import Book
from generator.records.rules.prose import Key
from generator.records.rules.reads import Reads
from generator.records.rules.registry import rule

_NAMES_A_FILE = re.compile(r"\.(?:jpe?g|png|webp)\s*$|^(?:img|dsc|image|picture|photo|photograph)[\W_]*\d*\s*$", re.I)


@rule("Every picture that a record names is a picture in the folder `pictures`.", alone=True)
def picture_is_there(book: Book) -> Iterator[Finding]:
    known = book.content.pictures
    for record, route, entry in book.pictured:
        file = str(entry.get("file"))
        if file not in known:
            hint = did_you_mean(file, known, "Put it into the folder `pictures` beside the records.")
            yield book.finding((record.kind, record.id), (*route, "file"), f"There is no picture {quote(file)}.", hint)


def pictures_named(book: Book) -> Mapping[str, Key]:
    """File of a picture -> a record that names it."""
    return {str(entry.get("file")): (record.kind, record.id) for record, _, entry in book.pictured}


@rule(
    "Every file in the folder `pictures` is a sound JPEG, PNG or WebP picture that a record names.", reads=Reads({}), users=pictures_named
)
def picture_is_sound_and_named(book: Book) -> Iterator[Finding]:
    named = pictures_named(book)
    for name, file in book.content.pictures.items():
        if file.fault:
            yield Finding(Path(file.path), 1, 1, f"{quote(name)} {file.fault}.", file.mend)
        elif name not in named and not any(book.content.unread.values()):
            hint = "Name it under `pictures` of a record, or take it away."
            yield Finding(Path(file.path), 1, 1, f"No record names the picture {quote(name)}.", hint, "warning")


@rule("What a picture shows is said in words, not by the name of a file.", alone=True)
def picture_is_told(book: Book) -> Iterator[Finding]:
    for record, route, entry in book.pictured:
        alt = str(entry.get("alt"))
        if _NAMES_A_FILE.search(alt) or _words(alt) == _words(Path(str(entry.get("file"))).stem):
            hint = "Say what to look at and how it looks, for whoever cannot see it."
            yield book.finding((record.kind, record.id), (*route, "alt"), f"{quote(alt)} does not say what the picture shows.", hint)


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", text.replace("_", " ").casefold())
