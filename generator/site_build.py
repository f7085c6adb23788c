"""The whole way from content folders to finished pages, stage by stage."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from generator.bench import Bench
from generator.carried import carried
from generator.edition import edition_of
from generator.library import Library
from generator.pages.charts.reckoners import reckoner_files
from generator.pages.data.families import data_files
from generator.pages.data.finder import finder_files
from generator.pages.data.jobs import planner_files
from generator.pages.data.open_data import open_files
from generator.pages.data.pages import page_files
from generator.pages.data.record_files import record_files
from generator.pages.data.tables import tables
from generator.pages.data.words import words_files
from generator.pages.learn.feed import feed_file
from generator.pages.learn.practice import cards_files
from generator.pages.learn.this_copy import read_me
from generator.pages.moved import moved_files
from generator.pages.page import PageText
from generator.pages.photos import photo_files
from generator.pages.piece import Piece
from generator.pages.records.shipped import licence_files
from generator.pages.site import pieces
from generator.pages.which_machine.page import which_machine_files
from generator.published import published
from generator.records.finding import did_you_mean, quote
from generator.records.model import Records
from generator.standing import Made, Standing, with_reads
from generator.store import load_kept
from generator.watched import Watch
from generator.workers import all_made

_HERE = Path(__file__).parent
WATCHED = (carried("schema"), _HERE / "pages", _HERE / "wording", _HERE / "assets")
"Folders whose change makes a new site, beside the content."


class ContentError(Exception):
    """The records have errors; the message lists each on a line of its own."""


@dataclass(frozen=True, slots=True)
class Site:
    """Everything that is published."""

    pages: tuple[PageText, ...]
    data: Mapping[str, str]
    "Address -> content of the script files that hold the browser's data, and of licences."
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    "Address -> bytes of the photographs and drawings of records."
    standing: Standing | None = None
    "The site that stands; what is `taken` of it has no words here."
    watch: Watch = field(default_factory=Watch)
    "The values that the pages were made of."


def build(
    folders: Sequence[Path],
    cache: Path,
    site_url: str,
    say: Callable[[str], None] = lambda _: None,
    only: Collection[str] = (),
    standing: Standing | None = None,
) -> Site:
    """Reads, checks, computes and renders. Raises ContentError where a record is faulty.

    `only`: the families that the site shows, for whoever writes one and looks at it after each line; all, where none is named.
    `standing`: the site that pages are taken over from where they would come out the same.
    """
    records, errors = load_kept(folders, cache)
    if errors:
        raise ContentError("\n".join(("The records have errors.", *errors)))
    bench = Bench(Library(_shown(records, only) if only else records), cache)
    bench.diagnose_all(say)
    edition = edition_of(folders)
    pages = made_pages(list(pieces(bench, folders, site_url, edition)), bench, standing)
    data = dict(file for made in all_made(_data(bench)) for file in made)
    moved = moved_files(bench, published(folders[0]), {page.address: page.title for page in pages})
    of_the_whole = {**read_me(bench.library, edition), **feed_file(edition, site_url), **dict(moved)}
    data |= {**dict(page_files(pages, folders, bench.library)), **of_the_whole}
    return Site(pages, data, dict(photo_files(bench.library)), standing, bench.library.watch)


def made_pages(pieces: Sequence[Piece], bench: Bench, standing: Standing | None) -> tuple[PageText, ...]:
    """All pages; those that are taken over without their words."""
    watch, noted = bench.library.watch, dict.fromkeys(address for piece in pieces for address in piece.addresses)
    if standing:
        bench.ready()
        records = bench.library.records
        standing.take(watch, noted, (records.shop, records.glossary))
    taken = standing.taken if standing else {}
    asked = [(piece, frozenset(piece.addresses) - taken.keys()) for piece in pieces]
    work = [partial(_made, piece, some, watch) for piece, some in asked if some or not piece.addresses]
    made = [page for pages in all_made(work) for page in pages]
    if standing:
        standing.made(made)
    return (*(m.page for m in made), *(PageText(p.address, p.title, "", search=p.search) for p in taken.values()))


def _made(piece: Piece, asked: Collection[str], watch: Watch) -> list[Made]:
    return with_reads(piece.make(asked), watch, frozenset(piece.addresses))


def _shown(records: Records, only: Collection[str]) -> Records:
    """The records without the other families, and without what is said of those alone."""
    for id in only:
        if id not in records.families:
            raise ContentError(f"{quote(id)} is no family of the book. {did_you_mean(id, records.families, 'Name one by its id.')}")
    return replace(
        records,
        families={id: family for id, family in records.families.items() if id in only},
        fasteners={id: notes for id, notes in records.fasteners.items() if id in only},
        tallies={id: tally for id, tally in records.tallies.items() if tally.family in only},
    )


def _data(bench: Bench) -> list[Callable[[], Iterable[tuple[str, str]]]]:
    """What makes address and content of every script file that holds data, and of licences."""
    return [
        partial(data_files, bench),
        partial(finder_files, bench.library),
        partial(which_machine_files, bench.library),
        partial(planner_files, bench),
        partial(reckoner_files, bench.library),
        partial(cards_files, bench),
        partial(words_files, bench.library),
        partial(record_files, bench.library.records),
        licence_files,
        *(partial(tables, view) for view in bench.library.views),
        *(partial(open_files, bench, view) for view in bench.library.views),
    ]
