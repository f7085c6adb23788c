"""Templates filled: one maker for the whole site, one set of links for each page."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from functools import cached_property, partial
from pathlib import Path
from typing import TypeVar

import jinja2

from generator.backlinks import Backlinks
from generator.bench import Bench
from generator.family_view import FamilyView
from generator.pages.glossing import Glossary
from generator.pages.page import Heading, PageText
from generator.pages.photos import photo_views
from generator.pages.piece import Piece
from generator.pages.shops_own import About, told_of
from generator.wording import words
from generator.wording.links import Links
from generator.wording.own import own_words

T = TypeVar("T")

_TEMPLATES = Path(__file__).parent / "templates"
_H2 = re.compile(r'<h2 id="([^"]+)"[^>]*>(.*?)</h2>', re.S)


class Maker:
    """Fills templates. Everything that a template shows is computed before."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self.library = bench.library
        self.records = bench.library.records
        self.backlinks = Backlinks(bench.library)
        self.glossary = Glossary(self.records.glossary.values())

    @cached_property
    def _environment(self) -> jinja2.Environment:
        environment = jinja2.Environment(
            loader=jinja2.FileSystemLoader(_TEMPLATES),
            autoescape=True,
            trim_blocks=True,
            lstrip_blocks=True,
            undefined=jinja2.StrictUndefined,
        )
        environment.filters.update(
            block=words.block,
            inline=words.inline,
            plain=words.plain,
            minutes=words.minutes,
            percent=words.percent,
            listed=words.listed,
            plural=words.plural,
            counted=words.counted,
            spaced=words.spaced,
            own_note=words.own_note,
        )
        environment.globals.update(records=self.records, photo_views=partial(photo_views, self.records))
        return environment

    def each(self, places: Mapping[str, T], prepare: Callable[[Collection[T]], Callable[[T], PageText]], *views: FamilyView) -> Piece:
        """A page at each address, of what stands for it there, each resting on what it reads itself.

        `prepare` is given all that are asked for, as for pictures that are laid out together, and gives what makes one page.
        """

        def pages(asked: Collection[str]) -> Iterator[PageText]:
            some = {address: held for address, held in places.items() if address in asked}
            make = prepare(tuple(some.values()))
            for address, held in some.items():
                with self.library.watch.reading(address):
                    for view in views:
                        self.library.for_family(view.id)
                    page = make(held)
                yield page

        return Piece(pages, tuple(places), views[0].id if len(views) == 1 else "")

    def page(
        self,
        address: str,
        title: str,
        template: str,
        *,
        search: str = "",
        description: str = "",
        scripts: tuple[str, ...] = (),
        wide: bool = False,
        of: FamilyView | None = None,
        homes: FamilyView | None = None,
        about: Iterable[About] = (),
        **view: object,
    ) -> PageText:
        """The page that a template makes of a view.

        `of` is the family that the page is about; `homes` is one whose mechanisms a page of no family links to;
        `about` names records that it tells of besides the one that its address and its family say.
        """
        link = Links(self.library, address, of, homes)
        html = self._environment.get_template(template).render(title=title, link=link, **view)
        own = own_words(self.records, told_of(self.records, address, of, about))
        if own:
            html = html.replace("</h1>", "</h1>" + self._environment.get_template("shops-own.html").render(own=own), 1)
        html = self.glossary.explain(html, link("term", "x").removesuffix("#x"))
        headings = tuple(Heading(a, _text(t)) for a, t in _H2.findall(html))
        return PageText(address, title, html, headings, search, description, scripts, wide, of.id if of else "")


def _text(html: str) -> str:
    return re.sub(r"<[^>]+>", "", html).strip()


def texts(*parts: object) -> str:
    """Words for the search index, from strings and nested sequences of them."""
    return " ".join(words.plain(t) for t in _strings(parts) if t)


def _strings(parts: object) -> Iterator[str]:
    if isinstance(parts, str):
        yield parts
    elif isinstance(parts, (tuple, list)):
        for part in parts:
            yield from _strings(part)
