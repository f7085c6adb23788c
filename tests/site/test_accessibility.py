"""Every kind of page, light and dark, by the axe engine; and targets that a thumb can hit."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.site.hearing import heard, listening

KINDS = (
    "open-data",
    "index",
    "symptoms",
    "families",
    "symptoms/skipped-stitches",
    "families/tessaly-40",
    "bench/tessaly-40/skipped-stitches",
    "assemblies/rotary-hook-geared",
    "failure-modes/hook-gear-cracked",
    "checks/watch-hook-while-turning",
    "techniques/free-a-bound-part",
    "fasteners/tessaly-40",
    "oil-chart/tessaly-40",
    "timing/tessaly-40",
    "gauges/hexholm-4",
    "settings-order/tessaly-40",
    "jobs/tessaly-40/hook-gear-cracked",
    "job-list/tessaly-40",
    "planner",
    "reckoners",
    "practice",
    "which-machine",
    "not-listed",
    "glossary",
    "sources",
    "coverage",
    "coverage/tessaly-40",
    "contribute",
    "guides",
    "guides/safety-first",
    "on-this-device",
)
"One page of each kind."


_TOLD = {"resultTypes": ["violations"]}
"What is in order is only counted: to name its place in the page takes axe as long as to look at it."

EVERY_RULE = {**_TOLD, "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}
"WCAG 2, levels A and AA."

COLOURS = {**_TOLD, "runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}}
"The rules that a change of colours alone can break."


@pytest.fixture(scope="module")
def windows(browser) -> Iterator[dict[str, Page]]:
    """A phone's window in each colour scheme."""
    phone = {"viewport": {"width": 390, "height": 844}, "offline": True}
    contexts = {s: listening(browser.new_context(color_scheme=s, **phone)) for s in ("light", "dark")}
    yield {scheme: context.new_page() for scheme, context in contexts.items()}
    for context in contexts.values():
        context.close()


@pytest.fixture
def tab(windows) -> Page:
    return windows["light"]


def _faults(tab: Page, path: Path, options: dict) -> list[str]:
    """What axe finds by these rules, and before it what the page's own policy refuses and its scripts trip over."""
    tab.goto(path.as_uri())
    tab.wait_for_timeout(150)
    complaints = heard(tab)
    found = Axe().run(tab, options=options).response["violations"]
    return complaints + [f"{v['id']}: {v['nodes'][0]['target']} {v['nodes'][0]['failureSummary']}" for v in found]


@pytest.mark.parametrize("page", KINDS)
def test_axe_finds_no_violation(windows, site, page):
    assert _faults(windows["light"], site / f"{page}.html", EVERY_RULE) == []


@pytest.mark.parametrize("page", KINDS)
def test_axe_finds_no_violation_in_the_dark(windows, site, page):
    assert _faults(windows["dark"], site / f"{page}.html", COLOURS) == []


@pytest.mark.parametrize(("scheme", "rules"), [("light", EVERY_RULE), ("dark", COLOURS)], ids=["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", ["index", "bench/corvane-2/no-feed"])
@pytest.mark.parametrize("words", ["hook gear", "qqqq zzzz"])
def test_axe_finds_no_violation_while_the_finder_is_in_use(browser, site, page, width, scheme, rules, words):
    """With a list longer than the window, its first line chosen; and with words that fit nothing."""
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 600}, offline=True)
    tab = context.new_page()
    tab.goto((site / f"{page}.html").as_uri())
    tab.keyboard.press("/")
    tab.keyboard.type(words)
    tab.locator("#finder-results [data-page], .hw-nearest a").first.wait_for()
    tab.keyboard.press("ArrowDown")
    found = Axe().run(tab, options=rules).response["violations"]
    assert [f"{v['id']}: {v['nodes'][0]['target']}" for v in found] == []
    context.close()


def test_the_arrows_bring_the_last_line_of_a_long_list_into_sight(browser, site):
    tab = browser.new_page(viewport={"width": 1280, "height": 600})
    tab.goto((site / "bench/corvane-2/no-feed.html").as_uri())
    tab.fill("#finder", "hook gear")
    last = tab.locator("#finder-results [role=option]").last
    tab.locator("#finder-results [data-page]").first.wait_for()
    tab.locator("#finder").press("ArrowUp")
    expect(last).to_have_attribute("aria-selected", "true")
    expect(last).to_be_in_viewport(ratio=0.9)
    expect(tab.locator(".hw-seek-found [role=status]")).to_be_in_viewport(ratio=0.9)
    tab.close()


def test_buttons_and_fields_are_as_tall_as_a_thumb(tab, site):
    """44 px; the theme's own header is left as it is."""
    small = []
    for page in ("index", "bench/tessaly-40/skipped-stitches", "planner", "reckoners", "practice", "on-this-device"):
        tab.goto((site / f"{page}.html").as_uri())
        small += tab.evaluate(
            """page => [...document.querySelectorAll('article button, article select, article input:not([type=checkbox]):not([type=radio]), article summary')]
                .filter(n => n.offsetParent && n.getBoundingClientRect().height < 43.5)
                .map(n => `${page}: ${n.tagName} ${n.id} ${n.textContent.trim().slice(0, 30)} ${n.getBoundingClientRect().height}`)""",
            page,
        )
    assert small == []
