"""What a page shows around its content. Most pages hold none of it: frame.js, once in the site, lays it round them."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from html import escape
from pathlib import Path

from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink

from generator.lean import without_room
from generator.pages.hubs import Hub, Section, folders_of_hubs, hub_of, sections
from generator.rests_on import is_plain

SCRIPT = "frame.js"
"The script's template and its address: in the site's root, since every page names it."
FEATURES = ("content.tooltips", "toc.follow", "navigation.sections")
"Of the theme: what every book's site asks for."
_PARTS = Path(__file__).parent / "assets" / "js" / "frame"
_WHOLE, _LAID = "base.html", "laid.html"
"The templates of a page that holds its frame, and of one that leaves it to the script."
_WAYS_ON = ("symptoms.html", "families.html", "job-list.html", "glossary.html")
"Hubs that every page offers a browser without scripts, beside its own."


@dataclass(frozen=True, slots=True)
class Heading:
    """An entry in the list of what stands on a page."""

    url: str
    title: str
    label: str
    "The title as the value of an attribute."
    children: tuple[Heading, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """What a frame has of its page."""

    of: str
    "The template that makes it."
    is_laid: bool
    title: str
    skip: str
    "Where the first part of the content stands; empty where none is marked."
    has_list: bool
    "Whether there is room for the list of what stands on the page."
    headings: tuple[Heading, ...]
    ways_on: tuple[Hub, ...]


def lay_frames(env: Environment, config: MkDocsConfig) -> None:
    """Give our templates what they show around a page's content."""
    env.globals["sections"] = pass_context(_sections)
    env.globals["page_headings"] = pass_context(_page_headings)
    env.globals["frame_of"] = pass_context(partial(_frame_of, is_alike(config)))
    env.globals["folders_of_hubs"] = folders_of_hubs()
    env.filters["as_text"] = lambda html: json.dumps(without_room(html))


def is_alike(config: MkDocsConfig) -> bool:
    """Whether the frame is the same round all pages: nobody else has a hand in it, and nothing is asked of it that follows the page."""
    plain = is_plain(config) and set(config.theme["features"]) <= set(FEATURES) and set(config.extra) <= {"generator", "social", "homepage"}
    palette = config.theme["palette"]
    return plain and isinstance(palette, list) and all({"scheme", "primary", "accent"} <= set(colours) for colours in palette)


def joined(laid: str) -> str:
    """The script as pages load it: what the theme's script looks for, the laying, what is laid, and the colours that the reader chose."""
    begin, lay, palette = ((_PARTS / name).read_text(encoding="utf-8") for name in ("begin.js", "lay.js", "palette.js"))
    return begin + lay + laid + palette


def _sections(context: Context) -> tuple[Section, ...]:
    """The hubs by the titles of their pages."""
    page: Page | None = context.get("page")
    return sections(page.file.dest_uri if page else "", {hub.file.dest_uri: hub.title for hub in context["nav"].pages})


def _page_headings(context: Context) -> tuple[Heading, ...]:
    page: Page | None = context.get("page")
    top = tuple(page.toc) if page else ()
    return _headings(top[0].children if top and top[0].level == 1 else top)


def _headings(links: Iterable[AnchorLink]) -> tuple[Heading, ...]:
    return tuple(Heading(link.url, link.title, escape(Markup(link.title).striptags()), _headings(link.children)) for link in links)


def _frame_of(alike: bool, context: Context) -> Frame:
    """A hub holds its frame: from there a browser without scripts goes on to all parts of the book."""
    page: Page | None = context.get("page")
    if page is None or not alike or not page.file.inclusion.is_not_in_nav():
        return Frame(_WHOLE, False, "", "", False, (), ())
    wanted = {*_WAYS_ON, hub_of(page.file.dest_uri)}
    ways_on = (hub for section in _sections(context) for hub in section.hubs if hub.address in wanted)
    title = page.meta.get("title") or Markup(page.title or "").striptags()
    has_list = "toc" not in page.meta.get("hide", ())
    return Frame(_LAID, True, title, next((link.url for link in page.toc), ""), has_list, _page_headings(context), tuple(ways_on))
