"""Terms of the trade explained on the page that uses them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import escape

from generator.records.model import Term
from generator.wording import words

_TAG = re.compile(r"(<[^>]*>)")
_NO_GLOSS = ("a", "h1", "h2", "h3", "svg", "button", "label", "select", "script", "style", "summary", "dfn")
_BARRED = re.compile(rf"</?({'|'.join(_NO_GLOSS)})(?![a-zA-Z0-9])", re.I | re.A)


class Glossary:
    """Finds terms in finished HTML: the first time each is used it leads to its meaning below."""

    def __init__(self, terms: Iterable[Term]) -> None:
        terms = tuple(terms)
        other = {phrase.lower(): None for term in terms for phrase in term.not_in}
        self._terms = other | {name.lower(): term for term in terms for name in (term.title, *term.also)}
        names = sorted(self._terms, key=lambda n: (-len(n), n))
        pattern = "|".join(re.escape(n).replace(r"\ ", r"\s+") for n in names)
        self._pattern = re.compile(rf"(?<![\w-])({pattern})(s?)(?![\w-])", re.I) if names else None

    def explain(self, html: str, glossary_address: str) -> str:
        """The HTML with its terms marked, and a folded list of what they mean at its end."""
        if self._pattern is None or "no-glossary" in html:
            return html
        used: dict[str, Term] = {}
        marked = "".join(self._mark(html, self._pattern, used))
        if not used:
            return html
        return marked + _list(sorted(used.values(), key=lambda t: t.title.lower()), glossary_address)

    def _mark(self, html: str, pattern: re.Pattern[str], used: dict[str, Term]) -> Iterator[str]:
        closed: list[str] = []
        for piece in _TAG.split(html):
            if piece.startswith("<"):
                _follow(piece, closed)
                yield piece
            elif closed or not piece.strip():
                yield piece
            else:
                yield pattern.sub(lambda m: self._first(m, used), piece)

    def _first(self, match: re.Match[str], used: dict[str, Term]) -> str:
        term = self._terms[" ".join(match[1].lower().split())]
        if term is None or term.id in used:
            return match[0]
        used[term.id] = term
        return f'<a class="hw-term" href="#word-{term.id}">{match[0]}</a>'


def _follow(tag: str, open_tags: list[str]) -> None:
    """Keeps track of the elements inside which no term is marked."""
    name = _BARRED.match(tag)
    if name is None:
        return
    if tag.startswith("</"):
        if open_tags and open_tags[-1] == name[1].lower():
            open_tags.pop()
    elif not tag.endswith("/>"):
        open_tags.append(name[1].lower())


def _list(terms: list[Term], glossary_address: str) -> str:
    items = "".join(
        f'<div id="word-{t.id}"><dt><a href="{escape(glossary_address)}#{t.id}">{escape(t.title)}</a></dt>'
        f"<dd>{words.inline(t.means)}</dd></div>"
        for t in terms
    )
    return f'<details class="hw-words" id="words"><summary>Words used here</summary><dl>{items}</dl></details>'
