"""Finished pages as files of an MkDocs build. With `plugin`, the only module that knows MkDocs."""

from __future__ import annotations

import posixpath
from html import escape
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents

from generator.pages.page import PageText
from generator.pages.site import NAVIGATION
from generator.site_build import Site
from generator.wording.markdown_limits import NoHtml

_HERE = Path(__file__).parent
_ASSETS = _HERE / "assets"
_PREFIX = "assets/handwheel"
_COMMON_SCRIPTS = "js/common"
_HUBS = {address for hubs in NAVIGATION.values() for address, _ in hubs}


class ReadyPage(Page):
    """A page that brings its own HTML and table of contents: nothing is left to convert.

    The theme writes titles and descriptions into its frame as they are, so they are handed over escaped.
    """

    def __init__(self, text: PageText, file: File, config: MkDocsConfig) -> None:
        self.text = text
        super().__init__(escape(text.title), file, config)

    def read_source(self, config: MkDocsConfig) -> None:
        """Our records are the source; the search index is fed from them as well."""
        self.markdown = ""
        self.meta = {"title": escape(self.text.title), "search": {"exclude": True}}
        if self.text.wide:
            self.meta["hide"] = ["toc"]
        if self.text.description:
            self.meta["description"] = escape(self.text.description)

    def render(self, config: MkDocsConfig, files: Files) -> None:
        """Hand over the finished content."""
        self.content = self.text.html
        links = [AnchorLink(escape(h.title), h.anchor, 2) for h in self.text.headings]
        self.toc = TableOfContents(links)
        self.present_anchor_ids = {h.anchor for h in self.text.headings}
        self.links_to_anchors = {}


def dress(config: MkDocsConfig) -> None:
    """Our templates before the theme's, our styles and scripts after them; guides without raw HTML."""
    extensions: list[Any] = config.markdown_extensions
    extensions.append(NoHtml())
    overrides = str(_HERE / "pages" / "theme")
    if overrides not in config.theme.dirs:
        config.theme.dirs.insert(0, overrides)
    config.theme["favicon"] = f"{_PREFIX}/mark/icon.svg"
    styles = sorted(p.name for p in (_ASSETS / "css").glob("*.css"))
    for name in styles:
        _append(config.extra_css, f"{_PREFIX}/css/{name}")
    for path in sorted((_ASSETS / _COMMON_SCRIPTS).glob("*.js")):
        _append(config.extra_javascript, f"{_PREFIX}/{_COMMON_SCRIPTS}/{path.name}")


def _append(items: list[Any], item: str) -> None:
    if item not in items:
        items.append(item)


def add_files(files: Files, site: Site, config: MkDocsConfig) -> Files:
    """All pages, data files and assets; hubs alone are in the navigation."""
    for page in site.pages:
        name = posixpath.splitext(page.address)[0] + ".md"
        hub = page.address in _HUBS
        level = InclusionLevel.INCLUDED if hub else InclusionLevel.NOT_IN_NAV
        file = File.generated(config, name, content="", inclusion=level)
        ReadyPage(page, file, config)
        files.append(file)
    for address, content in site.data.items():
        files.append(File.generated(config, address, content=content))
    for path in sorted(p for p in _ASSETS.rglob("*") if p.is_file()):
        name = f"{_PREFIX}/{path.relative_to(_ASSETS).as_posix()}"
        files.append(File.generated(config, name, abs_src_path=str(path)))
    _keep_guides_out_of_the_navigation(files)
    config.nav = _navigation()
    return files


def _navigation() -> list[dict[str, Any]]:
    """The hubs as MkDocs takes them: pages of the nameless section first, then the sections."""
    items: list[dict[str, Any]] = []
    for section, hubs in NAVIGATION.items():
        pages = [{title: posixpath.splitext(address)[0] + ".md"} for address, title in hubs]
        items += [{section: pages}] if section else pages
    return items


def _keep_guides_out_of_the_navigation(files: Files) -> None:
    """Hand-written pages are reached through their hub."""
    for file in files.documentation_pages():
        if file.page is None and file.dest_uri not in _HUBS:
            file.inclusion = InclusionLevel.NOT_IN_NAV


def index(site: Site, config: MkDocsConfig) -> None:
    """One search entry a page, its words taken from the records."""
    search = config.plugins.get("material/search") or config.plugins.get("search")
    if search is None:
        return
    search.search_index.entries += [
        {"location": p.address, "title": escape(p.title, False), "text": escape(p.search, False), "boost": p.boost}
        for p in site.pages
        if p.search
    ]


def with_scripts(output: str, page: object) -> str:
    """The page with its own scripts before the end of its body."""
    if not isinstance(page, ReadyPage) or not page.text.scripts:
        return output
    here = posixpath.dirname(page.text.address) or "."
    tags = "".join(
        f'<script src="{posixpath.relpath(address, here)}"></script>' for address in page.text.scripts
    )
    return output.replace("</body>", f"{tags}</body>", 1)
