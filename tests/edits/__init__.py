"""Edits of records by chance, and sites made after each of them: anew, and from the one that stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from generator.bench import Bench
from generator.edition import Edition
from generator.library import Library
from generator.pages.site import pieces
from generator.records.model import Records
from generator.site_build import begin, data_pieces, made
from generator.standing import Standing

Pages = Mapping[str, str]


def anew(records: Records, folders: Sequence[Path], cache: Path | None = None) -> Pages:
    """Address -> words of every page, and content of every file of data."""
    return all_pages(Bench(Library(records), cache), folders)


def all_pages(bench: Bench, folders: Sequence[Path]) -> Pages:
    """The same, of a bench that may have worked something out already."""
    pages, data = made(list(pieces(bench, folders, "", Edition("x"))), data_pieces(bench), bench, None)
    return {page.address: page.html for page in pages} | data


def taken_over(records: Records, folders: Sequence[Path], place: Path, cache: Path) -> tuple[Pages, int]:
    """The same, made beside a site that stands in a folder and put there; and how many pages were taken over from it."""
    bench = Bench(Library(records), cache)
    standing = Standing(place, cache, "the same code")
    found = list(pieces(bench, folders, "", Edition("x")))
    begin(standing, bench.library)
    some, data = made(found, data_pieces(bench), bench, standing)
    pages = {page.address: page.html for page in some} | data
    pages |= {address: (place / address).read_text(encoding="utf-8") for address in standing.taken}
    for address, html in pages.items():
        (place / address).parent.mkdir(parents=True, exist_ok=True)
        (place / address).write_text(html, encoding="utf-8")
    standing.remember(place, bench.library.watch)
    return pages, len(standing.taken)
