"""The coverage pages: what stands in the tables, and that every link leads somewhere."""

from __future__ import annotations

import posixpath
from pathlib import Path

import html5lib
import pytest

from generator.bench import Bench
from generator.content_rules import load_checked
from generator.library import Library
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.records import coverage as coverage_page

CONTENT = Path(__file__).parents[2] / "fixtures" / "coverage"
XHTML = "{http://www.w3.org/1999/xhtml}"


@pytest.fixture(scope="module")
def pages() -> dict[str, PageText]:
    maker = Maker(Bench(Library(load_checked([CONTENT])[0])))
    return {page.address: page for page in coverage_page.piece(maker).pages()}


def tree(page: PageText):
    """The page as a strict parser reads it: unclosed or misplaced tags raise."""
    html = f"<!doctype html><html><head><title>x</title></head><body>{page.html}</body></html>"
    return html5lib.HTMLParser(strict=True).parse(html)


def rows(page: PageText) -> list[list[str]]:
    return [
        [" ".join("".join(cell.itertext()).split()) for cell in row]
        for row in tree(page).iter(f"{XHTML}tr")
    ]


def test_there_is_a_hub_and_a_page_for_each_family(pages: dict[str, PageText]) -> None:
    assert list(pages) == ["coverage.html", "coverage/probe-1.html", "coverage/probe-2.html"]
    for page in pages.values():
        tree(page)


def test_the_hub_shows_the_fractions_by_hand(pages: dict[str, PageText]) -> None:
    assert ["Probe 1-series", "70 %", "100 %", "100 %", "10 %", "100 %", "100 %", "90 %"] in rows(pages["coverage.html"])


def test_the_hub_lists_what_is_not_told_apart_and_what_a_check_would_save(pages: dict[str, PageText]) -> None:
    wanted = [
        "Skips stitches: Probe 1-series", "30 %", "Gear cracked or Gear slipped",
        "No check separates them.", "If it shows Gear cracked: 1.2 min",
    ]
    assert wanted in rows(pages["coverage.html"])


def test_gaps_are_grouped_with_their_machines(pages: dict[str, PageText]) -> None:
    (target,) = [d for d in tree(pages["coverage.html"]).iter(f"{XHTML}details") if d.get("id") == "setting-without-target"]
    said = " ".join("".join(target.itertext()).split())
    assert said == "Settings without a target: 2 Needle-bar height Probe 1-series and Probe 2-series"


def test_a_matrix_shows_the_outcome_that_the_records_give(pages: dict[str, PageText]) -> None:
    """Outcome 1 of rolling names both needle faults; outcome 1 of watching names the gear's. Where nothing stands, the sheet draws a dot."""
    assert rows(pages["coverage/probe-1.html"]) == [
        ["Cause", "1", "2"],
        ["Gear crackedone of 2 that look alike, 2 remedies", "", "1"],
        ["Gear slippedone of 2 that look alike, 2 remedies", "", "1"],
        ["Needle bentone of 2 that look alike, one remedy", "1", ""],
        ["Needle bluntone of 2 that look alike, one remedy", "1", ""],
        ["Plate rough", "", ""],
    ]


def test_links_lead_to_pages_that_the_site_has(pages: dict[str, PageText]) -> None:
    kinds = {"bench", "checks", "failure-modes", "families", "symptoms", "fasteners", "assemblies", "coverage"}
    for page in pages.values():
        for a in tree(page).iter(f"{XHTML}a"):
            path = posixpath.normpath(posixpath.join(posixpath.dirname(page.address), a.get("href").partition("#")[0]))
            assert path in pages or path.partition("/")[0] in kinds, path
            assert not path.startswith("..")


def test_ids_are_used_once(pages: dict[str, PageText]) -> None:
    for page in pages.values():
        ids = [e.get("id") for e in tree(page).iter() if e.get("id")]
        assert len(ids) == len(set(ids))


@pytest.mark.parametrize(("value", "said"), [(1.0, "100 %"), (0.9975, "over 99 %"), (0.994, "99 %"), (0.0, "0 %")])
def test_a_fraction_says_all_only_where_it_is_all(value: float, said: str) -> None:
    assert coverage_page._fraction(value) == said
