"""What a first visit costs a phone: bytes over the line, and whether the page jumps under the finger."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import material
import pytest

from tests.site.serving import served

LARGEST = 250_000
"Bytes, compressed, of a bench page and all that it loads of ours."

SHIFT = 0.02
"Cumulative layout shift: a fifth of what Web Vitals count as good (0.1, from memory)."

_THEMES = ("/assets/images/", "/search/")
_JOINED = {"book.css": ("assets/stylesheets/main.*.css", "assets/stylesheets/palette.*.css"), "common.js": ("assets/javascripts/bundle.*.js",)}
"File of ours -> the theme's that stand in it."
_LOADED = """() => document.fonts.ready.then(() => [
    ...[...document.querySelectorAll("script[src]")].map((script) => script.src),
    ...[...document.querySelectorAll("link[rel~=icon]")].map((link) => link.href),
    ...performance.getEntriesByType("resource").map((entry) => entry.name),
])"""
"""What a page has loaded: the list of the browser, and the scripts and marks that the page names, as a
browser may take one that it has kept without listing it."""

_SHIFT = """() => new Promise((done) => {
    let sum = 0;
    new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) if (!entry.hadRecentInput) sum += entry.value;
    }).observe({ type: "layout-shift", buffered: true });
    setTimeout(() => done(sum), 600);
})"""


@pytest.fixture(scope="module")
def host(site: Path) -> Iterator[str]:
    with served(site) as address:
        yield address


@pytest.fixture
def tab(browser):
    """A phone that has never been here."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    yield context.new_page()
    context.close()


def _largest_of_each_family(site: Path) -> list[Path]:
    return [max(family.glob("*.html"), key=lambda p: (p.stat().st_size, p)) for family in sorted((site / "bench").iterdir())]


def test_a_bench_page_and_all_that_it_loads_of_ours_is_light(tab, site, host):
    for page in _largest_of_each_family(site):
        address = f"{host}/{page.relative_to(site).as_posix()}"
        tab.goto(address, wait_until="load")
        loaded = {urlsplit(asked).path for asked in [address, *tab.evaluate(_LOADED)]}
        ours = sorted(path for path in loaded if not path.startswith(_THEMES))
        assert len(ours) > 5
        assert sum(len(gzip.compress(_without_the_themes(site / path[1:]), 6)) for path in ours) < LARGEST, (page, ours)


def _without_the_themes(path: Path) -> bytes:
    content = path.read_bytes()
    for name in _JOINED.get(path.name, ()):
        theirs = next((Path(material.__file__).parent / "templates").glob(name)).read_bytes()
        assert theirs in content
        content = content.replace(theirs, b"")
    return content


@pytest.mark.parametrize(
    "address",
    ["index", "bench/tessaly-40/skipped-stitches", "jobs/tessaly-40/hook-gear-cracked", "families/tessaly-40", "planner",
     "reckoners", "practice", "not-listed", "which-machine", "symptoms/skipped-stitches", "assemblies/rotary-hook-geared"],
)  # fmt: skip
def test_a_page_does_not_jump_while_it_loads(tab, site, host, address):
    tab.goto(f"{host}/{address}.html", wait_until="load")
    assert tab.evaluate(_SHIFT) < SHIFT


def test_opening_the_walk_and_answering_moves_nothing_by_itself(tab, site, host):
    """What moves after a press is asked for; half a second later nothing may still be moving."""
    tab.goto(f"{host}/bench/tessaly-40/skipped-stitches.html")
    tab.get_by_role("button", name="Walk me through it").click()
    tab.locator("#walk [data-outcome]").last.click()
    assert tab.evaluate(_SHIFT) < SHIFT
