"""Timing sheets: cautions first, the targets' own figures, one side of paper."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTCurve
from playwright.sync_api import Browser

from generator.bench import Bench
from generator.bench.timing import USED, timing
from generator.diagrams.timing.needle import SCALE
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.timing import page as timing_page
from generator.pages.timing import views
from generator.wording.timing import HOW_TO_MEASURE
from tests.pages.jobs.printing import ROOT, dressed, printer


@pytest.fixture(scope="module")
def sheets(published: Bench) -> dict[str, PageText]:
    return {page.address: page for page in timing_page.piece(Maker(published)).pages()}


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


POINT_MM = 25.4 / 72
"A point of a PDF in mm."
NEEDLE_MM = 0.9 * 5
"Nm 90 is a blade of 0.9 mm, drawn 5 : 1."


def needles_in(pdf: bytes) -> list[LTCurve]:
    """Outlines on the paper that are as wide as the needle, by where they stand."""
    curves = (c for page in extract_pages(BytesIO(pdf)) for c in page if isinstance(c, LTCurve))
    wide = {(round(c.x0), round(c.y0)): c for c in curves if abs(c.width * POINT_MM - NEEDLE_MM) < 0.03}
    return [wide[place] for place in sorted(wide)]


def test_what_says_to_scale_is_so_on_the_paper(published: Bench, sheets, browser: Browser, tmp_path: Path) -> None:
    view = next(v for v in published.library.views if v.id == "tessaly-40")
    found, file = timing(view), tmp_path / "sheet.html"
    assert found.needle == 90
    file.write_text(dressed(sheets[f"timing/{view.id}.html"]), encoding="utf-8")
    tab = browser.new_page()
    tab.goto(file.as_uri())
    drawn = needles_in(tab.pdf(format="A4"))
    tab.close()
    assert len(drawn) == 6  # left, middle and right of the zigzag, and three instants
    tips = [c.y0 * POINT_MM / 5 for c in drawn[3:]]
    rises = [instant.rise for instant in found.instants]
    assert [tip - tips[0] for tip in tips] == pytest.approx([rise - rises[0] for rise in rises], abs=0.015)


def test_the_hand_wheel_moves_needle_and_point_as_they_go(published: Bench, sheets, browser: Browser, tmp_path: Path) -> None:
    view = next(v for v in published.library.views if v.id == "larkrise-h")
    found, file = timing(view), tmp_path / "sheet.html"
    script = (ROOT / "generator" / "assets" / "js" / "timing" / "hand-wheel.js").read_text(encoding="utf-8")
    file.write_text(dressed(sheets[f"timing/{view.id}.html"], f"<script>{script}</script>"), encoding="utf-8")
    tab = browser.new_page()
    tab.goto(file.as_uri())
    for instant in found.followed[::15]:
        tab.locator("#wheel-degrees").fill(f"{instant.degrees:g}")
        moved = tab.evaluate("[...document.querySelectorAll('[data-moves]')].map(g => g.transform.baseVal[0].matrix).flatMap(m => [m.e, m.f])")
        up, past = (found.middle.rise - instant.rise) * SCALE, -instant.past * SCALE
        assert moved == pytest.approx([0, up, past, 0], abs=0.1)
        assert f"bar risen {instant.rise:.2f} mm" in tab.locator("output").inner_text()
    tab.close()


def test_without_the_script_three_instants_are_drawn(sheets) -> None:
    html = sheets["timing/tessaly-40.html"].html
    assert re.search(r'<section class="hw-wheel" hidden', html)
    assert len(re.findall('class="gate point"', html.split('id="instants"')[1].split("</section>")[0])) == 3


def test_every_gauge_stands_with_its_tolerance_and_its_tool(published: Bench, sheets) -> None:
    for view in published.library.views:
        html = sheets[f"gauges/{view.id}.html"].html
        for setting in view.settings.values():
            if setting.gauge and setting.target and setting.target.low and setting.gauge.draws != "run":
                after = html.split(f'id="{setting.id}"')[1].split("</li>")[0]
                assert "<svg" in after and f"{setting.target.low} to {setting.target.high}" in after
                assert ("By eye." in after) == (setting.gauge.tool is None)


def test_a_looper_is_drawn_at_its_height_and_a_sheet_speaks_in_the_familys_words(published: Bench, sheets) -> None:
    overlock = next(v for v in published.library.views if v.id == "hexholm-4")
    low, high = timing(overlock).height
    drawn = sheets["timing/hexholm-4.html"].html.split('id="needle"')[1].split("</section>")[0]
    assert low == high and f"point {low:.2f} mm above the top of the eye" in drawn
    assert 'id="hook">Shuttle<' in sheets["timing/larkrise-h.html"].html
