"""Finished pages as files of an MkDocs build. The test of the floors names the few modules that know MkDocs."""

from __future__ import annotations

import logging
import posixpath
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext

from generator.frame import (
    BOOK,
    COMMON,
    PALETTE,
    joined,
    leave_out_what_is_not_used,
    one_script,
    one_sheet,
    settle,
)
from generator.lean import lean
from generator.pages.bench.walk_scripts import WALK, WALK_PARTS
from generator.pages.hubs import NAVIGATION
from generator.pages.mending import Mending, mending
from generator.pages.page import PageText
from generator.rests_on import is_plain, rests_on
from generator.site_build import Site
from generator.standing import Standing, StandingChanged
from generator.swapped_in import NewFolder, can_be_swapped
from generator.wording.markdown_limits import NoHtml, OwnLinks

_HERE = Path(__file__).parent
_ASSETS = _HERE / "assets"
_PREFIX = "assets/handwheel"
_COMMON_SCRIPTS = "js/common"
_GUIDES = "guides"
"Hand-written pages, in any content folder."
_HUBS = {address for hubs in NAVIGATION.values() for address, _ in hubs}


class ReadyPage(Page):
    """A page that brings its own HTML and table of contents: nothing is left to convert.

    The theme writes titles and descriptions into its frame as they are, so they are handed over escaped.
    """

    def __init__(self, text: PageText, file: File, config: MkDocsConfig) -> None:
        self.text = text
        super().__init__(escape(text.title), file, config)

    def read_source(self, config: MkDocsConfig) -> None:
        """Our records are the source."""
        self.markdown = ""
        self.meta = {"title": escape(self.text.title), "family": self.text.family}
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


class StandingFile(File):
    """A page, frame and all, or a file of data, that is taken over as it stands."""

    def __init__(self, name: str, address: str, inclusion: InclusionLevel, config: MkDocsConfig, standing: Standing) -> None:
        super().__init__(name, None, config.site_dir, config.use_directory_urls, dest_uri=address, inclusion=inclusion)
        self._standing = standing

    def is_documentation_page(self) -> bool:
        """Nothing is left to be filled in."""
        return False

    def copy_file(self, dirty: bool = False) -> None:
        """Into the new site."""
        try:
            self._standing.lay(self.dest_uri, Path(self.abs_dest_path))
        except StandingChanged as error:
            raise PluginError(str(error)) from None


def dress(config: MkDocsConfig) -> None:
    """Our templates before the theme's, our styles and scripts after them; guides without raw HTML, styles or links to scripts."""
    settle(config)
    extensions: list[Any] = config.markdown_extensions
    extensions += [NoHtml(), OwnLinks()]
    for overrides in ("theme", *(["switch"] if config.theme["palette"] == list(PALETTE) else [])):
        folder = str(_HERE / "pages" / overrides)
        if folder not in config.theme.dirs:
            config.theme.dirs.insert(0, folder)
    config.theme["favicon"] = f"{_PREFIX}/mark/icon.svg"
    _append(config.extra_css, f"{_PREFIX}/css/{BOOK}")
    _append(config.extra_javascript, f"{_PREFIX}/js/{COMMON}")


@dataclass(frozen=True, slots=True)
class Forge:
    """Where the book is kept, so that its readers can mend it."""

    repository: str
    "`repo_url` of mkdocs.yml; empty where none is set."
    edit: str
    "From there to the content folder for editing."
    content: Path
    "The content folder."


def forge(config: MkDocsConfig) -> Forge:
    """The forge that mkdocs.yml names, taken from the theme, which would fetch numbers about it on every page."""
    repository, content = config.repo_url or "", Path(config.docs_dir)
    said = any("edit_uri" in given for given in config.user_configs)
    edit = (config.edit_uri if said else "") or f"edit/main/{content.name}"
    config.repo_url = config.repo_name = config.edit_uri = None
    return Forge(repository, edit, content)


def with_mending(context: TemplateContext, page: Page, at: Forge) -> TemplateContext:
    """The frame's values with the links by which this page is mended, where the book has a forge."""
    if at.repository:
        values: Any = context
        values["mending"] = _mended_at(at, page.file.dest_uri, "" if page.file.generated_by else page.file.src_uri)
    return context


def _mended_at(at: Forge, address: str, source: str = "") -> Mending:
    return mending(at.repository, at.edit, address, source, lambda file: bool(file) and (at.content / file).is_file())


def standing(config: MkDocsConfig, folders: Sequence[Path], cache: Path, at: Forge, of: str) -> Standing | None:
    """The site that stands; None where its pages cannot be taken over, because others have a hand in them or it is cleared first.

    `of` says what kind of site it is, where other pages are made for others.
    """
    folder = Path(config.site_dir)
    if not is_plain(config) or not can_be_swapped(folder):
        return None
    return Standing(folder, cache, rests_on(config, folders) + of, lambda address: repr(_mended_at(at, address)) if at.repository else "")


def _append(items: list[Any], item: str) -> None:
    if item not in items:
        items.append(item)


def add_files(files: Files, site: Site, config: MkDocsConfig, more: Sequence[Path] = ()) -> Files:
    """All pages, data files and assets, and the guides of further content folders; hubs alone are in the navigation."""
    for folder in more:
        _lay_guides(files, folder, config)
    for file in _files_of_pages(site, config):
        files.append(file)
    made: dict[str, str | bytes] = {**site.data, **site.pictures}
    for address, content in made.items():
        files.append(File.generated(config, address, content=content))
    files.append(File.generated(config, f"{_PREFIX}/css/{BOOK}", content=one_sheet(_ASSETS / "css", config.theme)))
    files.append(File.generated(config, f"{_PREFIX}/js/{COMMON}", content=one_script(_ASSETS / _COMMON_SCRIPTS, config.theme)))
    files.append(File.generated(config, WALK, content=joined(_ASSETS / part for part in WALK_PARTS)))
    for path in sorted(p for p in _ASSETS.rglob("*") if p.is_file() and not _is_joined(p)):
        name = f"{_PREFIX}/{path.relative_to(_ASSETS).as_posix()}"
        files.append(File.generated(config, name, abs_src_path=str(path)))
    _keep_guides_out_of_the_navigation(files)
    leave_out_what_is_not_used(files, config)
    config.nav = _navigation()
    return files


def _files_of_pages(site: Site, config: MkDocsConfig) -> Iterator[File]:
    """All that have a page, and the files of data that are taken over."""
    taken = dict(site.standing.taken) if site.standing else {}
    for page in site.pages:
        name = posixpath.splitext(page.address)[0] + ".md"
        level = InclusionLevel.INCLUDED if page.address in _HUBS else InclusionLevel.NOT_IN_NAV
        if site.standing and taken.pop(page.address, None):
            file: File = StandingFile(name, page.address, level, config, site.standing)
        else:
            file = File.generated(config, name, content="", inclusion=level)
        ReadyPage(page, file, config)
        yield file
    for address in taken:
        if site.standing:
            yield StandingFile(address, address, InclusionLevel.INCLUDED, config, site.standing)


def known_prints(site: Site) -> dict[str, str]:
    """The SHA-256 of the files that are taken over, by address."""
    return {address: page.sha256 for address, page in site.standing.taken.items()} if site.standing else {}


def _is_joined(path: Path) -> bool:
    """Whether an asset is a part of a sheet or script that stands for it."""
    return path.suffix == ".css" or path.parent == _ASSETS / _COMMON_SCRIPTS or path.name == "lay.js"


def _lay_guides(files: Files, folder: Path, config: MkDocsConfig) -> None:
    """The guides of a later content folder, with their pictures; one of the same name stands in an earlier one's place."""
    for path in sorted(p for p in (folder / _GUIDES).rglob("*") if p.is_file() and not p.name.startswith(".")):
        name = path.relative_to(folder).as_posix()
        earlier = files.get_file_from_path(name)
        if earlier:
            files.remove(earlier)
        files.append(File.generated(config, name, abs_src_path=str(path.resolve())))


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


def begin_beside(config: MkDocsConfig) -> NewFolder | None:
    """A folder beside the site's, to which MkDocs now writes; None where the site's own must be written to."""
    if not can_be_swapped(Path(config.site_dir)):
        return None
    new = NewFolder(Path(config.site_dir))
    config.site_dir = str(new.folder)
    return new


def publish(new: NewFolder, config: MkDocsConfig, site: Site) -> None:
    """The new site in the place of the old, but where a strict build has met with a warning: it is about to be given up."""
    config.site_dir = str(new.place)
    counters = (h for h in logging.getLogger("mkdocs").handlers if isinstance(h, CountHandler))
    if config.strict and any(counter.get_counts() for counter in counters):
        new.drop()
    else:
        if site.standing:
            site.standing.remember(new.folder, site.watch)
        new.swap_in()


def finished(output: str, page: Page) -> str:
    """The page without bytes that nobody sees, and its own scripts at the end of its body."""
    here = posixpath.dirname(page.file.dest_uri) or "."
    scripts = page.text.scripts if isinstance(page, ReadyPage) else ()
    tags = "".join(f'<script src="{posixpath.relpath(script, here)}"></script>' for script in scripts)
    return lean(output.replace("</body>", f"{tags}</body>", 1))
