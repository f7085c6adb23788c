"""Pages on paper: few sides, and no picture with type too small to read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

PAPERS = ("A4", "Letter")
BENCH_SIDES = 9
SCREW_SIDES = 13
"One side for every five or six joints: a chart is as long as its machine has screws."
SMALLEST = 5.5
"Points. The smallest type of a picture on paper, its notes and figures; its titles are 1.2 times as large."


@pytest.fixture
def tab(browser):
    page = browser.new_page()
    yield page
    page.close()


def _largest(folder: Path, number: int) -> list[Path]:
    return sorted(folder.rglob("*.html"), key=lambda p: (p.stat().st_size, p))[-number:]


def _sides(tab, path: Path) -> int:
    tab.goto(path.as_uri())
    return max(len(re.findall(rb"/Type\s*/Page\b", tab.pdf(format=paper))) for paper in PAPERS)


def test_the_longest_bench_pages_print_on_few_sides(tab, site):
    for path in _largest(site / "bench", 3):
        assert _sides(tab, path) <= BENCH_SIDES, path


def test_the_longest_fastener_charts_print_on_few_sides(tab, site):
    for path in _largest(site / "fasteners", 2):
        assert _sides(tab, path) <= SCREW_SIDES, path


_SHOWN = """() => {
  const seen = (e) => e !== null && e.getBoundingClientRect().height > 0;
  const [picture, list] = document.querySelectorAll('#why + .hw-picture, #why + .hw-picture + details');
  const svg = picture.querySelector('svg');
  return { picture: seen(picture), list: seen(list.querySelector(':scope > ul, :scope > :not(summary)')),
           scale: svg.getBoundingClientRect().height / Number(svg.getAttribute('height')) };
}"""


def test_a_fault_tree_is_printed_large_enough_to_read_or_else_as_its_list(tab, site):
    """On A4 within 12 mm of its edges; 13 px of type are 9.75 pt, and 11 px 8.25 pt."""
    tab.set_viewport_size({"width": 703, "height": 1032})
    tab.emulate_media(media="print")
    kinds = set()
    for path in sorted((site / "bench").rglob("*.html"))[::7]:
        tab.goto(path.as_uri())
        shown = tab.evaluate(_SHOWN)
        assert shown["picture"] != shown["list"], path
        assert shown["list"] or shown["scale"] * 8.25 >= SMALLEST * 0.97, (path, shown)
        kinds.add(shown["list"])
    assert kinds == {True, False}
