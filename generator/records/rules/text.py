"""Rules about the text of records."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator

from generator.records.finding import Finding, quote
from generator.records.nested import strings
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.registry import rule

_CODE = re.compile(r"(?<!`)(`+)(?!`).+?(?<!`)\1(?!`)", re.DOTALL)
_LINK = re.compile(r"(?<!\\)\[[^\]\n]*\](\([^)\n]*\)|\[|:\s)")
_TAG = re.compile(r"(?<!\\)<[A-Za-z/!?][^\s>]*>?")


@rule("Text holds no raw HTML.", alone=True)
def no_raw_html(book: Book) -> Iterator[Finding]:
    message = "Raw HTML, or what a browser takes for it: {}."
    return _where(book, "<", _TAG, message, "Use Markdown; put a space after a '<' that means less, or backticks round it.")


@rule("Text holds no link and no picture.", alone=True)
def no_links(book: Book) -> Iterator[Finding]:
    hint = "Write the words alone: pages link by themselves. What a figure comes from goes into sources.yaml."
    return _where(book, "[", _LINK, "A link or a picture: {}.", hint)


def _where(book: Book, sign: str, pattern: re.Pattern[str], message: str, hint: str) -> Iterator[Finding]:
    """A finding for every text in which the pattern, which has the sign in it, stands outside code."""
    for record, route, text in _texts(book, lambda told: sign in told):
        found = pattern.search(_CODE.sub("", text)) if sign in text else None
        if found:
            yield book.finding(record, route, message.format(quote(found[0], 30)), hint)


@rule("Text holds no character that cannot be seen.", alone=True)
def no_hidden_characters(book: Book) -> Iterator[Finding]:
    for record, route, text in _texts(book, lambda told: not told.replace("\n", "").isprintable()):
        odd = None if text.isprintable() else next((c for c in text if unicodedata.category(c)[0] == "C" and c not in "\n\t"), None)
        if odd:
            name = unicodedata.name(odd, "a control character")
            message = f"The text holds a character that cannot be seen: U+{ord(odd):04X} {name}."
            yield book.finding(record, route, message, "Delete it, and type the word again.")


def _texts(book: Book, may_hold: Callable[[str], bool]) -> Iterator[tuple[tuple[str, str], Route, str]]:
    """Record, place and text of every record whose texts, taken together, may hold what is looked for."""
    for (kind, id), told in book.told.items():
        if may_hold(told):
            yield from (((kind, id), route, text) for route, text in strings(book.content.records[kind][id].data))
