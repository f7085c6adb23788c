"""The whole way from content folders to finished pages, stage by stage."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from itertools import chain
from pathlib import Path

from generator.bench import Bench
from generator.carried import carried
from generator.edition import edition_of
from generator.family_view import FamilyView
from generator.library import Library
from generator.pages.charts.reckoners import RECKONERS, reckoner_files
from generator.pages.data.families import family_address, family_files, mechanism_files
from generator.pages.data.finder import FAMILIES, FINDER, finder_files
from generator.pages.data.jobs import jobs_address, planner_files
from generator.pages.data.mechanisms import ADDRESS as MECHANISMS
from generator.pages.data.open_data import MATRIX, ORDERS, OUTCOMES, TREES, open_address, open_files
from generator.pages.data.pages import page_files
from generator.pages.data.record_files import record_files
from generator.pages.data.tables import CHARTS, table_address, tables
from generator.pages.data.words import WORDS, words_files
from generator.pages.learn.feed import feed_file
from generator.pages.learn.practice import CARDS, card_files, ways_address, ways_files
from generator.pages.learn.this_copy import read_me
from generator.pages.moved import moved_files
from generator.pages.page import PageText
from generator.pages.photos import photo_files
from generator.pages.piece import Files, Piece
from generator.pages.records.shipped import FRAME_LICENCE, licence_files
from generator.pages.site import pieces
from generator.pages.which_machine.page import which_machine_files
from generator.published import published
from generator.records.finding import did_you_mean, quote
from generator.records.model import Records
from generator.standing import DataFile, Made, Standing, files_with_reads, with_reads
from generator.store import load_kept
from generator.watched import Watch
from generator.workers import all_made

_HERE = Path(__file__).parent
WATCHED = (carried("schema"), _HERE / "pages", _HERE / "wording", _HERE / "assets")
"Folders whose change makes a new site, beside the content."


Work = tuple[Callable[[], list[Made]], str]
"What is to be made, and the family that it is all about."


class ContentError(Exception):
    """The records have errors; the message lists each on a line of its own."""


@dataclass(frozen=True, slots=True)
class Site:
    """Everything that is published."""

    pages: tuple[PageText, ...]
    data: Mapping[str, str]
    "Address -> content of the script files that hold the browser's data, and of licences; without those that are taken over."
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    "Address -> bytes of the photographs and drawings of records."
    standing: Standing | None = None
    "The site that stands; what is `taken` of it has no words here."
    watch: Watch = field(default_factory=Watch)
    "The values that the pages were made of."
    records: Records = field(default_factory=Records)
    "What the site was made from."


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
    records = shown(records, only)
    bench = Bench(Library(records), cache)
    edition = edition_of(folders)
    to_make = list(pieces(bench, folders, site_url, edition))
    if standing:
        begin(standing, bench.library)
    bench.diagnose_all(say, standing.as_before if standing else lambda _: False)
    pages, data = made(to_make, data_pieces(bench), bench, standing)
    moved = moved_files(bench, published(folders[0]), {page.address: page.title for page in pages})
    of_the_whole = {**read_me(bench.library, edition), **feed_file(edition, site_url), **dict(moved)}
    data |= {**dict(page_files(pages, folders, bench.library)), **of_the_whole}
    return Site(pages, data, dict(photo_files(bench.library)), standing, bench.library.watch, records)


def begin(standing: Standing, library: Library) -> None:
    """Finds out what has changed since the site that stands was built; all that values are worked out by is there."""
    standing.begin(library.watch, (library.records.shop, library.records.glossary))


def made(
    pieces: Sequence[Piece], files: Sequence[Files], bench: Bench, standing: Standing | None
) -> tuple[tuple[PageText, ...], dict[str, str]]:
    """All pages; those that are taken over without their words. And new files of data by their address.

    What has changed is found out before: `begin`.
    """
    watch = bench.library.watch
    work = [*_pages_to_make(pieces, watch, standing), *_files_to_make(files, watch, standing)]
    new = list(chain.from_iterable(all_made([make for make, _ in work], [family for _, family in work])))
    pages = [m.page for m in new if isinstance(m.page, PageText)]
    data = {m.page.address: m.page.content for m in new if isinstance(m.page, DataFile)}
    if standing:
        standing.made(new)
        of_data = {address for piece in files for address in piece.addresses}
        taken = (page for address, page in standing.taken.items() if address not in of_data)
        pages += (PageText(page.address, page.title, "", search=page.search) for page in taken)
    return tuple(pages), data


def _pages_to_make(pieces: Sequence[Piece], watch: Watch, standing: Standing | None) -> Iterator[Work]:
    take = standing.take if standing else _none
    for piece in pieces:
        some = frozenset(address for address in piece.addresses if not take(address))
        if some or not piece.addresses:
            yield partial(_made, piece, some, watch), piece.family


def _files_to_make(pieces: Sequence[Files], watch: Watch, standing: Standing | None) -> Iterator[Work]:
    take = standing.take if standing else _none
    for piece in pieces:
        if not piece.addresses or not take(*piece.addresses):
            yield partial(files_with_reads, piece, watch), piece.family


def _none(*addresses: str) -> bool:
    """Where no site stands."""
    return False


def _made(piece: Piece, asked: Collection[str], watch: Watch) -> list[Made]:
    return with_reads(piece.make(asked), watch, frozenset(piece.addresses))


def shown(records: Records, only: Collection[str]) -> Records:
    """The records without the other families, and without what is said of those alone; all, where no family is named."""
    if not only:
        return records
    for id in only:
        if id not in records.families:
            raise ContentError(f"{quote(id)} is no family of the book. {did_you_mean(id, records.families, 'Name one by its id.')}")
    return replace(
        records,
        families={id: family for id, family in records.families.items() if id in only},
        fasteners={id: notes for id, notes in records.fasteners.items() if id in only},
        tallies={id: tally for id, tally in records.tallies.items() if tally.family in only},
    )


def data_pieces(bench: Bench) -> list[Files]:
    """Every script file that holds data, every table, and the licences."""
    return [
        Files(partial(mechanism_files, bench), (MECHANISMS,)),
        Files(partial(finder_files, bench.library), (FAMILIES, FINDER)),
        Files(partial(which_machine_files, bench.library)),
        Files(partial(reckoner_files, bench.library), (RECKONERS,)),
        Files(partial(card_files, bench), (CARDS,)),
        Files(partial(words_files, bench.library), (WORDS,)),
        Files(partial(record_files, bench.library.records)),
        Files(licence_files, (FRAME_LICENCE,)),
        *(files for view in bench.library.views for files in _data_of(bench, view)),
    ]


def _data_of(bench: Bench, view: FamilyView) -> Iterator[Files]:
    """What the pages of a family reckon with, and its tables."""
    family = view.id

    def files(make: Callable[[FamilyView], Iterable[tuple[str, str]]], *addresses: str) -> Files:
        """They rest on the family itself, so they ask for it when they are made."""
        return Files(lambda: make(bench.library.for_family(family)), addresses, family)

    yield files(partial(family_files, bench), family_address(family))
    yield files(partial(planner_files, bench), jobs_address(family))
    yield files(partial(ways_files, bench), ways_address(family))
    yield files(tables, *(table_address(chart, family) for chart in CHARTS))
    yield files(partial(open_files, bench), *(open_address(name, family) for name in (ORDERS, MATRIX, OUTCOMES, TREES)))
