"""Every page with its words, and every part by its name, for the finder: what it lists beside the symptoms."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from generator.library import Library
from generator.pages.data.script import FOLDER, script
from generator.pages.data.shapes import PagesData, PartPlace
from generator.pages.hubs import hub_title
from generator.pages.page import PageText
from generator.wording.places import place

ADDRESS = f"{FOLDER}/pages.js"
_BY_SYMPTOM = ("symptoms/", "bench/")
"The finder finds these by the symptom, above the pages."
_WORD = re.compile(r"[a-z0-9]+(?:'[a-z0-9]+)*")
_LEAD = re.compile(r"^(?:---.*?^---\s*)?# +(.+?)\s*$", re.M | re.S)


def page_files(pages: Iterable[PageText], folders: Sequence[Path], library: Library) -> Iterator[tuple[str, str]]:
    """Address and content of the pages' data."""
    yield ADDRESS, script("pages", pages_data(pages, folders, library))


def pages_data(pages: Iterable[PageText], folders: Sequence[Path], library: Library) -> PagesData:
    """Pages by address; the words of each are those that its title has not, each once."""
    found = [(p.address, p.title, p.search) for p in pages if p.search and not p.address.startswith(_BY_SYMPTOM)]
    found += _guides(folders)
    return {
        "pages": [[a, title, hub_title(a), _more(title, text)] for a, title, text in sorted(found)],
        "parts": list(_parts(library)),
    }


def _parts(library: Library) -> Iterator[PartPlace]:
    """Every part and setting in each mechanism that has it, with the machines that have it there."""
    homes: dict[tuple[str, str], list[str]] = {}
    for view in library.views:
        for item, home in view.home_of.items():
            homes.setdefault((home, item), []).append(view.id)
    for assembly in library.records.assemblies.values():
        for kind, items in (("part", assembly.parts), ("setting", assembly.settings)):
            for id, record in items.items():
                yield [place(kind, id, assembly.id), record.title, assembly.title, homes.get((assembly.id, id), [])]


def _guides(folders: Sequence[Path]) -> Iterator[tuple[str, str, str]]:
    """The guides that are written by hand; a later folder's stands for an earlier one's."""
    paths = {p.stem: p for folder in folders for p in sorted((folder / "guides").glob("*.md"))}
    for name, path in paths.items():
        text = path.read_text(encoding="utf-8")
        title = _LEAD.search(text)
        yield f"guides/{name}.html", title[1] if title else name, text


def plain_words(text: str) -> list[str]:
    """The words of a text as the browser reads what is typed: small letters, no accents.

    >>> plain_words("Renew the Hook-gear: 3/32 in, café")
    ['renew', 'the', 'hook', 'gear', '3', '32', 'in', 'cafe']
    """
    small = text.replace("’", "'").lower()
    if not small.isascii():
        small = "".join(c for c in unicodedata.normalize("NFKD", small) if not unicodedata.combining(c))
    return _WORD.findall(small)


def _more(title: str, text: str) -> str:
    told = set(plain_words(title))
    return " ".join(dict.fromkeys(w for w in plain_words(text) if w not in told))
