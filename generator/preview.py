"""The live preview: the page of a record that was edited is shown at once, by itself; the whole site follows when edits stop.

Only the shape of an edited record is looked at before its page is shown. What the rules say of it, and what it changes
on other pages, comes with the whole.
"""

from __future__ import annotations

import logging
import tempfile
import threading
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment
from mkdocs.commands.build import get_context
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation

from generator.bench import Bench
from generator.edition import Edition
from generator.library import Library
from generator.mkdocs_site import ReadyPage, finished
from generator.pages.page import PageText
from generator.pages.site import pieces
from generator.records.kinds import KINDS
from generator.records.load import load
from generator.records.model import Records
from generator.records.sound_files import SoundFiles
from generator.site_build import shown
from generator.whole_files import put
from generator.wording.places import place

_log = logging.getLogger("mkdocs.plugins.handwheel")

STILL = 1.0
"Seconds without an edit after which the whole site is built."
_OWN_PAGES = ("family", "assembly", "symptom", "failure-mode", "check", "technique", "fasteners")
"Kinds of which each record has a page."


@dataclass(frozen=True, slots=True)
class Built:
    """The site that is shown, and what puts a page into its frame."""

    records: Records
    cache: Path
    config: MkDocsConfig
    files: Files
    nav: Navigation
    env: Environment


class Preview:
    """What the server calls when a file has changed."""

    def __init__(
        self, whole: Callable[[], None], built: Callable[[], Built | None], folders: Sequence[Path], only: Collection[str] = ()
    ) -> None:
        """`whole` builds the site; `built` is the site that stands, or None while there is none; `only` are the families shown."""
        self._whole, self._built, self._folders, self._only = whole, built, folders, only
        self._known = SoundFiles()
        self._seen: Records | None = None
        "The records as they were last shown, since the whole site was built."
        self._own = tempfile.TemporaryDirectory(prefix="handwheel-")
        self._sign = Path(self._own.name) / "edits-have-stopped"
        self._later: threading.Timer | None = None

    def follow(self, server: LiveReloadServer) -> LiveReloadServer:
        """Have the server call this, and again when edits have stopped."""
        self._sign.touch()
        server.watch(str(self._sign.parent))
        server.builder = self
        self._read()  # so that the first edit need not read every file
        return server

    def __call__(self) -> None:
        """Show the pages of the records that were edited; if there are none, build the whole site."""
        if self._later:
            self._later.cancel()
        if self.show_edited():
            self._later = threading.Timer(STILL, self._edits_have_stopped)
            self._later.daemon = True
            self._later.start()
        else:
            self._seen = None
            self._whole()

    def _edits_have_stopped(self) -> None:
        with suppress(OSError):  # the server may have ended meanwhile, and the folder with it
            self._sign.write_bytes(b".")

    def show_edited(self) -> bool:
        """Whether records were edited that have pages, and can be shown; their pages are then those of the site."""
        built, records = self._built(), self._read()
        if built is None or records is None:
            return False
        edited = _edited(self._seen or built.records, records)
        try:
            put_there = [self._put(page, built) for page in _pages(records, built.cache, self._folders, edited)]
        except Exception as error:  # a record that keeps to its shape but to no rule can break anything: the whole build says which
            _log.debug("Left to the whole build: %s", error)
            return False
        self._seen = records
        for address in put_there:
            _log.info("Shown for now: %s", address)
        return bool(put_there)

    def _read(self) -> Records | None:
        """The records by their shape alone; None where a file is not as its schema has it."""
        self._known = SoundFiles(self._known.met)
        records, findings = load(self._folders, rules=(), known=self._known)
        return None if any(finding.level == "error" for finding in findings) else shown(records, self._only)

    def _put(self, text: PageText, built: Built) -> str:
        """Put a page into its frame and into the site; its address."""
        name = text.address.removesuffix("html") + "md"
        page = ReadyPage(text, File.generated(built.config, name, content="", inclusion=InclusionLevel.NOT_IN_NAV), built.config)
        page.read_source(built.config)
        page.render(built.config, built.files)
        context = get_context(built.nav, built.files, built.config, page)
        context = built.config.plugins.on_page_context(context, page=page, config=built.config, nav=built.nav)
        output = built.env.get_template("main.html").render(context)
        put(Path(built.config.site_dir, text.address), finished(output, page).encode())
        return text.address


def _edited(before: Records, now: Records) -> set[str]:
    """Addresses of the pages of records that are new, or not what they were."""
    found: set[str] = set()
    for kind in (KINDS[name] for name in _OWN_PAGES):
        was = getattr(before, kind.group)
        found |= {place(kind.name, id) for id, record in getattr(now, kind.group).items() if was.get(id) != record}
    return found


def _pages(records: Records, cache: Path, folders: Sequence[Path], addresses: set[str]) -> Iterator[PageText]:
    """The pages at some addresses, as they are with these records."""
    if addresses:
        for piece in pieces(Bench(Library(records), cache), folders, "", Edition("")):
            if asked := addresses & set(piece.addresses):
                yield from piece.make(asked)
