"""All pages of the site, in the order of the floors: hubs, records, charts, bench pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from pathlib import Path

from generator.bench import Bench
from generator.edition import Edition
from generator.pages import pictures
from generator.pages.bench import page as bench_page
from generator.pages.charts import charts as chart_pages
from generator.pages.charts import reckoners as reckoners_page
from generator.pages.device import page as device_page
from generator.pages.jobs import sheets as job_sheets
from generator.pages.learn import contribute as contribute_page
from generator.pages.learn import guides as guides_page
from generator.pages.learn import open_data as open_data_page
from generator.pages.learn import practice as practice_page
from generator.pages.learn import this_copy as this_copy_page
from generator.pages.maker import Maker
from generator.pages.not_listed import page as not_listed_page
from generator.pages.piece import Piece, every_time
from generator.pages.planner import page as planner_page
from generator.pages.records import assemblies as assembly_pages
from generator.pages.records import coverage as coverage_page
from generator.pages.records import families as family_pages
from generator.pages.records import faults as fault_pages
from generator.pages.records import lists
from generator.pages.records import symptoms as symptom_pages
from generator.pages.records import techniques as technique_pages
from generator.pages.timing import page as timing_page
from generator.pages.which_machine import page as which_machine_page


def pieces(bench: Bench, folders: Sequence[Path], site_url: str, edition: Edition) -> Iterator[Piece]:
    """Every page that is made from records, in pieces of which none rests on another."""
    maker, views = Maker(bench), bench.library.views
    yield lists.piece(maker)
    yield every_time(partial(guides_page.pages, maker, folders))
    yield contribute_page.piece(maker)
    yield every_time(partial(this_copy_page.pages, maker, edition))
    yield every_time(partial(open_data_page.pages, maker, any(release.month for release in edition.releases)))
    yield coverage_page.piece(maker)
    yield every_time(partial(device_page.pages, maker))
    yield family_pages.piece(maker)
    yield symptom_pages.piece(maker)
    yield from (bench_page.piece(maker, view) for view in views)
    yield assembly_pages.piece(maker)
    yield from fault_pages.pieces(maker)
    yield technique_pages.piece(maker)
    yield chart_pages.piece(maker, partial(pictures.of_settings, bench))
    yield timing_page.piece(maker)
    yield from (piece for view in views for piece in job_sheets.pieces(maker, view, site_url))
    yield every_time(partial(which_machine_page.pages, maker))
    yield every_time(partial(not_listed_page.pages, maker))
    yield every_time(partial(planner_page.pages, maker))
    yield every_time(partial(reckoners_page.pages, maker))
    yield every_time(partial(practice_page.pages, maker))
