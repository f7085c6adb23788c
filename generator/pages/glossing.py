"""Terms of the trade marked where a page uses them; js/common/words.js lays what they mean under it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import escape

from generator.records.model import Term

_TAG = re.compile(r"(<[^>]*>)")
_NO_GLOSS = ("a", "h1", "h2", "h3", "svg", "button", "label", "select", "script", "style", "summary", "dfn")
_BARRING = re.compile(rf"<(/?)({'|'.join(_NO_GLOSS)})(?![a-zA-Z0-9])[^>]*>", re.I | re.A)
_PICTURE = re.compile(r"</svg>", re.I)

Spot = tuple[int, int, Term]
"A term in a stretch of HTML: where it begins and ends."


class Glossary:
    """Finds terms in finished HTML: the first time each is used it leads to its meaning."""

    def __init__(self, terms: Iterable[Term]) -> None:
        terms = tuple(terms)
        other = {phrase.lower(): None for term in terms for phrase in term.not_in}
        self._terms = other | {name.lower(): term for term in terms for name in (term.title, *term.also)}
        self._pattern = re.compile(rf"(?<![\w-])({_any_of(self._terms)})(s?)(?![\w-])", re.I) if self._terms else None
        self._known: dict[str, tuple[Spot, ...]] = {}

    def explain(self, html: str, glossary_address: str) -> str:
        """The HTML with its terms marked: links into the glossary, for a script lays their meanings under the page."""
        if self._pattern is None or "no-glossary" in html:
            return html
        used: set[str] = set()
        address = escape(glossary_address)
        return "".join(piece if barred else self._marked(piece, used, address) for piece, barred in _stretches(html))

    def _marked(self, html: str, used: set[str], address: str) -> str:
        """A stretch with the terms that are new on the page marked."""
        made, at = [], 0
        for start, end, term in self._terms_in(html):
            if term.id not in used:
                used.add(term.id)
                made += [html[at:start], f'<a href="{address}#{term.id}">{html[start:end]}</a>']
                at = end
        return "".join((*made, html[at:])) if made else html

    def _terms_in(self, html: str) -> tuple[Spot, ...]:
        """Every term of a stretch, in order; pages share most of what they say, so each stretch is searched once."""
        found = self._known.get(html)
        if found is None:
            found = self._known[html] = tuple(self._search(html))
        return found

    def _search(self, html: str) -> Iterator[Spot]:
        at = 0
        for piece in _TAG.split(html):
            if self._pattern and not piece.startswith("<") and not piece.isspace():
                for match in self._pattern.finditer(piece):
                    term = self._terms[" ".join(match[1].lower().split())]
                    if term:
                        yield at + match.start(), at + match.end(), term
            at += len(piece)


def _any_of(names: Iterable[str]) -> str:
    """A pattern of any of the names, the longest first; by first letter, since most words begin with none of theirs."""
    by_letter: dict[str, list[str]] = {}
    for name in sorted(names, key=lambda n: (-len(n), n)):
        by_letter.setdefault(name[0], []).append(re.escape(name[1:]).replace(r"\ ", r"\s+"))
    return "|".join(f"{re.escape(letter)}(?:{'|'.join(rest)})" for letter, rest in by_letter.items())


def _stretches(html: str) -> Iterator[tuple[str, bool]]:
    """The HTML in stretches, each with whether it stands within an element where no term is marked."""
    barring: list[str] = []
    at = 0
    while tag := _BARRING.search(html, at):
        yield html[at:tag.start()], bool(barring)
        end = tag.end()
        name = tag[2].lower()
        if tag[1]:
            if barring and barring[-1] == name:
                barring.pop()
        elif name == "svg" and (whole := _PICTURE.search(html, end)):
            end = whole.end()
        elif not tag[0].endswith("/>"):
            barring.append(name)
        yield html[tag.start():end], True
        at = end
    yield html[at:], bool(barring)
