"""All pages of the site, in the order of the floors: hubs, records, charts, bench pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from generator.bench import Bench
from generator.pages.bench import page as bench_page
from generator.pages.charts import charts as chart_pages
from generator.pages.charts import reckoners as reckoners_page
from generator.pages.device import page as device_page
from generator.pages.jobs import sheets as job_sheets
from generator.pages.learn import contribute as contribute_page
from generator.pages.learn import guides as guides_page
from generator.pages.learn import practice as practice_page
from generator.pages.maker import Maker
from generator.pages.not_listed import page as not_listed_page
from generator.pages.page import PageText
from generator.pages.pictures import draw_all
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


def all_pages(bench: Bench, folders: Sequence[Path], site_url: str) -> Iterator[PageText]:
    """Every page that is made from records."""
    maker = Maker(bench)
    pictures = draw_all(bench)
    yield from lists.pages(maker)
    yield from guides_page.pages(maker, folders)
    yield from contribute_page.pages(maker)
    yield from coverage_page.pages(maker)
    yield from device_page.pages(maker)
    yield from family_pages.pages(maker)
    yield from symptom_pages.pages(maker, pictures)
    yield from bench_page.pages(maker, pictures)
    yield from assembly_pages.pages(maker, pictures)
    yield from fault_pages.pages(maker)
    yield from technique_pages.pages(maker)
    yield from chart_pages.pages(maker, pictures)
    yield from timing_page.pages(maker)
    yield from job_sheets.pages(maker, site_url)
    yield from which_machine_page.pages(maker)
    yield from not_listed_page.pages(maker)
    yield from planner_page.pages(maker)
    yield from reckoners_page.pages(maker)
    yield from practice_page.pages(maker)
