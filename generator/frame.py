"""What every book's site asks of MkDocs and its theme, so that a shop's mkdocs.yml need not say it."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from jinja2 import Environment, pass_context
from jinja2.runtime import Context
from markupsafe import Markup
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink
from mkdocs.theme import Theme
from pathspec.gitignore import GitIgnoreSpec

from generator.pages.hubs import Section, hub_of, sections

THEME = "material"
FEATURES = ("content.tooltips", "toc.follow", "navigation.sections")
RECORDS = ("*.yaml", "*.yml", "addresses.txt", "/pictures/")
"Files of the content folder that are no pages."
PALETTE: tuple[dict[str, Any], ...] = tuple(
    {
        "media": f"(prefers-color-scheme: {wanted})",
        "scheme": scheme,
        "primary": "custom",
        "accent": "custom",
        "toggle": {"name": name},
    }
    for wanted, scheme, name in (("light", "default", "Dark"), ("dark", "slate", "Light"))
)
"The toggle names what a press brings; js/frame/palette.js lays it."
_SEARCH = ("assets/javascripts/lunr/", "assets/javascripts/workers/")
CONTENT_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self' file:",
        "style-src 'self' file:",
        "img-src 'self' file: data:",
        "font-src 'self' file: data:",
        "connect-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
    )
)
"""What a page may load and run: files of this site, and pictures and type that its style sheets hold as data.

Nothing written into a page runs or dresses it, whatever a record says. From disk a browser may not know the site as
`self`, hence `file:`, which no page from a host can load.
"""
FACE, BOOK = "face.css", "book.css"
"The style sheets that a page asks for: the type, and all others in one."
_NO_DAY = "1980-01-01"
"Where a date must be: the first day that every kind of archive knows."


def settle(config: MkDocsConfig) -> None:
    """Settings that the pages rest on; a palette, a theme's folder or an extension of the shop's own stays."""
    if config.theme.name != THEME:
        config.theme = Theme(name=THEME)
    theme: Any = config.theme
    theme["font"] = False
    theme["features"] = list(dict.fromkeys((*(theme.get("features") or ()), *FEATURES)))
    if not theme.get("palette"):
        theme["palette"] = list(PALETTE)
    config.use_directory_urls = False
    config.extra["generator"] = False
    config.exclude_docs = GitIgnoreSpec.from_lines([*RECORDS, *_lines(config.exclude_docs)])
    extensions: list[Any] = config.markdown_extensions
    if "admonition" not in extensions:
        extensions.append("admonition")
    config.mdx_configs.setdefault("tables", {"use_align_attribute": True})


def _lines(given: Any) -> list[str]:
    """The patterns that mkdocs.yml gives; those it gives later win, as in one list."""
    return [str(p.pattern) for p in given.patterns if isinstance(p.pattern, str)] if given else []


def leave_out_what_is_not_used(files: Files, config: MkDocsConfig) -> None:
    """The theme's search and the maps of its scripts, some 2 MB: the finder is ours, and nobody mends the theme here."""
    if not any("search" in plugin for plugin in config.plugins):
        for file in [f for f in files if f.src_uri.startswith(_SEARCH) or f.src_uri.endswith(".map")]:
            files.remove(file)


def one_sheet(folder: Path) -> str:
    """All style sheets but the type's, by name: every page names each sheet that it asks for, and a phone waits for each."""
    return "".join(path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.css")) if path.name != FACE)


def without_dates(files: Files) -> None:
    """The same records give the same bytes on any day: MkDocs would date every page, and what it packs, with today."""
    for file in files.documentation_pages():
        if file.page:
            file.page.update_date = _NO_DAY


def guard(env: Environment) -> None:
    """Have every page refuse what it should not load. A live preview goes without: it is told of changes by a script in its pages."""
    env.globals["content_policy"] = CONTENT_POLICY


@dataclass(frozen=True, slots=True)
class Heading:
    """An entry in the list of what stands on a page."""

    url: str
    title: str
    label: str
    "The title as the value of an attribute."
    children: tuple[Heading, ...]


def lay_navigation(env: Environment) -> None:
    """Give our lists of the book's parts and of a page's headings what they show."""
    env.globals["sections"] = pass_context(_sections)
    env.globals["page_headings"] = pass_context(_page_headings)
    _keep_navigation(env)


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


def _keep_navigation(env: Environment) -> None:
    """Have the theme write the navigation once a folder: it is the same on every page that it does not hold."""
    template = env.get_template("partials/nav.html")
    template.root_render_func = _once_a_folder(template.root_render_func)


def _once_a_folder(render: Callable[[Context], Iterator[str]]) -> Callable[[Context], Iterator[str]]:
    """What a template writes of a page outside the navigation, kept by the folder that its links start from, and its hub."""
    known: dict[tuple[str, str], list[str]] = {}

    def kept(context: Context) -> Iterator[str]:
        page: Page | None = context.get("page")
        if page is None or not page.file.inclusion.is_not_in_nav():
            yield from render(context)
            return
        place = posixpath.dirname(page.url), hub_of(page.file.dest_uri)
        if place not in known:
            known[place] = list(render(context))
        yield from known[place]

    return kept
