"""How many bytes a page takes: a copy of the site goes by stick and by mail, and a phone keeps all of it."""

from __future__ import annotations

import re

import pytest

from generator.frame import PALETTE
from generator.pages.hubs import NAVIGATION
from tests.site.reading import framed
from tests.tags import sound

FRAME = 1_560
"Bytes of a page that are not its own: head, header, navigation, foot. The scripts that it alone asks for stand apart."
MEAN = {
    "bench": (200, 82_800), "jobs": (200, 12_250), "failure-modes": (200, 5_400), "checks": (200, 8_720),
    "assemblies": (30, 24_150), "symptoms": (30, 17_650), "coverage": (7, 182_000),
}  # fmt: skip
"""Kind of page -> pages that there are at least, and bytes that one has in the mean, frame and all."""
NO_PAGE = 11_310_000
"Bytes of what is no page: data, tables, records, styles, scripts."
WHOLE = 59_590_000
"Bytes of the site of this book's own content, unpacked; with its hundred folders, each counted as a block, under 60 MB."


def _frame(html: str) -> str:
    head, _, rest = html.partition("<article")
    foot = rest.rpartition("</article>")[2]
    return head + re.sub(r'<script src="?[^" >]*/(?:data|js/(?!common/|frame/)\w[\w-]*)/[^>]*></script>', "", foot)


@pytest.mark.parametrize("folder", ["bench", "jobs", "checks", "failure-modes", "assemblies", "symptoms"])
def test_the_frame_of_a_page_weighs_little(site, folder):
    frames = [len(_frame(p.read_text(encoding="utf-8")).encode()) for p in (site / folder).rglob("*.html")]
    assert len(frames) > 30 and max(frames) < FRAME


@pytest.mark.parametrize("folder", MEAN)
def test_a_page_of_a_common_kind_weighs_little(site, folder):
    sizes, (pages, most) = [p.stat().st_size for p in (site / folder).rglob("*.html")], MEAN[folder]
    assert len(sizes) > pages and sum(sizes) / len(sizes) < most


def test_the_whole_site_goes_on_a_small_stick(site):
    assert sum(p.stat().st_size for p in site.rglob("*") if p.is_file()) < WHOLE


def test_what_is_no_page_weighs_little(site):
    assert sum(p.stat().st_size for p in site.rglob("*") if p.is_file() and p.suffix != ".html") < NO_PAGE


def test_the_side_navigation_names_every_hub_once_in_its_order(browser, site):
    text = framed(browser, next(iter(sorted((site / "jobs").rglob("*.html")))))
    hubs = [f"../../{address}" for section in NAVIGATION.values() for address, _ in section]
    assert sound(text).xpath("//nav[contains(@class, 'md-nav--primary')]//li/a/@href") == hubs


def test_the_switch_of_the_colours_offers_what_the_theme_is_told(browser, site):
    """Laid by a script, since pages need not carry it; a press brings the other colours."""
    tab = browser.new_page(color_scheme="light")
    tab.goto((site / "sources.html").as_uri())
    offered = tab.evaluate(
        "[...document.querySelectorAll('input[name=__palette]')].map(i => [i.dataset.mdColorMedia, i.dataset.mdColorScheme, i.ariaLabel])"
    )
    assert offered == [[p["media"], p["scheme"], p["toggle"]["name"]] for p in PALETTE]
    tab.locator("label[title=Dark]").click()
    assert tab.locator("body").get_attribute("data-md-color-scheme") == "slate"
    tab.close()


def test_a_matrix_shows_a_dot_where_its_cells_say_nothing(browser, site):
    tab = browser.new_page()
    tab.goto((site / "coverage/tessaly-40.html").as_uri())
    shown = "getComputedStyle(document.querySelector('.hw-matrix td:empty'), '::before').content"
    assert tab.evaluate(shown) == '"·"'
    tab.close()


def test_each_step_is_numbered_as_its_heading_says(browser, site):
    """By the style sheet, in the order of the page: a list may be cut in two by a heading."""
    for address in ("bench/tessaly-40/skipped-stitches.html", "jobs/tessaly-40/hook-gear-cracked.html"):
        tab = browser.new_page()
        tab.goto((site / address).as_uri())
        steps = tab.locator(":is(.hw-check, .hw-jobsteps > li)")
        said = [re.search(r"\d+", words)[0] for words in steps.locator("h3 .hw-sr").all_text_contents()]
        rise = "s => s.map(e => getComputedStyle(e).counterIncrement + getComputedStyle(e, '::before').content)"
        assert set(steps.evaluate_all(rise)) == {'step 1counter(step) / ""'}
        assert [step.get_attribute("id") for step in steps.all()] == [f"step-{number}" for number in range(1, steps.count() + 1)]
        assert said == [str(number) for number in range(1, len(said) + 1)]
        tab.close()
