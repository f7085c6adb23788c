"""Content folders to records and findings: the one door of this floor."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from generator.records.build import build_all
from generator.records.finding import Finding
from generator.records.model import Records
from generator.records.own import own_records
from generator.records.read import read
from generator.records.rules import RULES, Book, Rule
from generator.records.sound_files import SoundFiles


def load(
    folders: Sequence[Path],
    extra_rules: Iterable[Rule] = (),
    rules: Iterable[Rule] = RULES,
    known: SoundFiles | None = None,
) -> tuple[Records, tuple[Finding, ...]]:
    """All good records of the content folders, and everything that is wrong, sorted. Never raises.

    Later folders add to earlier ones or override them. `extra_rules` are rules of a higher floor; `rules` can be
    none where a few files are read that name records of others. `known` are files that were sound before.
    """
    book = open_book(folders, known)
    found = {f for rule in (*rules, *extra_rules) for f in rule.run(book)}
    return with_own(book.records, folders), tuple(sorted(found.union(book.content.findings)))


def open_book(folders: Sequence[Path], known: SoundFiles | None = None) -> Book:
    """All that is in the content folders, for rules to look at. Never raises."""
    content = read(folders, known)
    return Book(content, build_all(content))


def with_own(records: Records, folders: Sequence[Path]) -> Records:
    """The records, and what of them comes from a later folder."""
    return replace(records, own=own_records(records.places, folders[1:]))
