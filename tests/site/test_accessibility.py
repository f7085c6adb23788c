"""Every kind of page, light and dark, by the axe engine; and targets that a thumb can hit."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe

KINDS = (
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


@pytest.fixture(scope="module", params=["light", "dark"])
def tab(browser, request):
    context = browser.new_context(color_scheme=request.param, viewport={"width": 390, "height": 844}, offline=True)
    yield context.new_page()
    context.close()


def _faults(tab, path: Path) -> list[str]:
    """What axe finds; rules of WCAG 2 at levels A and AA."""
    tab.goto(path.as_uri())
    tab.wait_for_timeout(150)
    options = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}
    found = Axe().run(tab, options=options).response["violations"]
    return [f"{v['id']}: {v['nodes'][0]['target']} {v['nodes'][0]['failureSummary']}" for v in found]


@pytest.mark.parametrize("page", KINDS)
def test_axe_finds_no_violation(tab, site, page):
    assert _faults(tab, site / f"{page}.html") == []


def test_buttons_and_fields_are_as_tall_as_a_thumb(tab, site):
    """44 px; the theme's own header and search are left as they are."""
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
