"""What the terms of the trade mean, for every page that uses some of them."""

from __future__ import annotations

from collections.abc import Iterator

from generator.library import Library
from generator.pages.data.script import FOLDER, script
from generator.wording import words

WORDS = f"{FOLDER}/words.js"


def words_files(library: Library) -> Iterator[tuple[str, str]]:
    """Address and content of the data: term -> its title and, as HTML of our own converter, what it means."""
    terms = {term.id: [term.title, words.inline(term.means)] for term in library.records.glossary.values()}
    yield WORDS, script("words", {"terms": terms})
