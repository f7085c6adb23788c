"""Timing sheets: cautions first, the targets' own figures, one side of paper."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from generator.bench import Bench
from generator.bench.timing import USED, timing
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.timing import page as timing_page
from generator.pages.timing import views
from generator.wording.timing import HOW_TO_MEASURE
from tests.pages.jobs.printing import printer


@pytest.fixture(scope="module")
def sheets(published: Bench) -> dict[str, PageText]:
    return {page.address: page for page in timing_page.pages(Maker(published))}


def test_every_family_has_a_sheet_that_the_hub_links_to(published: Bench, sheets) -> None:
    for view in published.library.views:
        assert f"timing/{view.id}.html" in sheets
        assert f'href="timing/{view.id}.html"' in sheets["timing.html"].html


def test_cautions_stand_before_everything_else(published: Bench, sheets) -> None:
    for view in published.library.views:
        html = sheets[f"timing/{view.id}.html"].html
        assert "hw-caution-line" in html[: html.index("<svg")]
        assert html.index("hand wheel by hand") < html.index("Turn past lowest")
        assert ("Unplug first" in html) != view.by_hand


def test_a_sheet_has_the_rise_of_the_familys_own_setting(published: Bench, sheets) -> None:
    for view in published.library.views:
        target = view.settings[timing(view).setting.id].target
        rises = re.findall(r'<th scope="row">([\d.]+)</th>', sheets[f"timing/{view.id}.html"].html)
        assert f"{float(rises[0])} mm" == target.low and f"{float(rises[-1])} mm" == target.high


def test_every_figure_that_is_reckoned_from_says_its_source(published: Bench, sheets) -> None:
    for view in published.library.views:
        said = sheets[f"timing/{view.id}.html"].html.split("Reckoned from:")[1]
        for name in USED:
            if name in view.family.figures:
                figure = view.family.figures[name]
                title = published.library.records.figures[name].title.lower()
                assert f"{title} {figure.value}" in re.sub("<[^>]+>", "", said)
                assert f"sources.html#{figure.source}" in said


def test_the_swings_follow_from_the_width_and_the_side_is_the_records(published: Bench, sheets) -> None:
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    found = timing(view)
    drawn = views.positions(found)
    assert [p.title for p in drawn] == ["Left", "Middle", "Right"]
    assert drawn[2].rise < drawn[1].rise < drawn[0].rise
    for place in drawn:
        assert place.above + place.rise == pytest.approx(drawn[1].above + drawn[1].rise)
    assert "Early, the right swing is lost first" in sheets["timing/tessaly-40.html"].html


def test_what_is_missing_has_words_on_how_to_measure_it(published: Bench) -> None:
    for view in published.library.views:
        assert set(timing(view).missing) <= HOW_TO_MEASURE.keys()


def test_every_sheet_prints_on_one_side(sheets, browser: Browser, tmp_path: Path) -> None:
    with printer(browser, tmp_path) as printed:
        for address, page in sheets.items():
            if address.startswith("timing/"):
                assert printed(page) == [1, 1], address
