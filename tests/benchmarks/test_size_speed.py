"""A book at size: whether pages grow with the number of families, and how soon the browser answers.

100 families with 500 complaints; with `LARGE=1` 1,000 families with 5,000 complaints.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import yaml
from playwright.sync_api import Browser, Page

from tests.benchmarks.conftest import Sites
from tests.benchmarks.figures import Figures

FEW, MANY, LARGE = 10, 100, 1000
GROWTH = 1.0
"Size of a page among many families, over the same page among few."
SLOWED = 4
USABLE, KEY, PRESS = 1000.0, 50.0, 100.0
"Milliseconds, on a processor slowed so many times."
_RUNS = 3
_FIRST_KEY = """() => new Promise((done) => {
  const input = document.getElementById("finder");
  input.focus();
  input.value = "f";
  const look = () => {
    input.dispatchEvent(new Event("input", { bubbles: true }));
    if (document.getElementById("finder-status").textContent) done(performance.now());
    else setTimeout(look, 10);
  };
  look();
})"""
"Milliseconds from the call of the page to the first answer to a key, which is pressed as soon as the page is loaded."
_KEYS = """(words) => {
  const input = document.getElementById("finder");
  return [...words].map((_, end) => {
    const start = performance.now();
    input.value = words.slice(0, end + 1);
    input.dispatchEvent(new Event("input", { bubbles: true }));
    document.getElementById("finder-results").getBoundingClientRect();
    return performance.now() - start;
  });
}"""
_PRESS = """() => new Promise((done) => {
  const start = performance.now();
  %s;
  requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
})"""
_CHOOSE = "(s => { s.selectedIndex = 7; s.dispatchEvent(new Event('change', {bubbles: true})); })(document.getElementById('finder-family'))"


def test_no_page_of_a_record_grows_with_the_number_of_families(made_sites: Sites, figures: Figures) -> None:
    few, many = made_sites(FEW).site, made_sites(MANY).site
    for folder, what in (("jobs", "job sheet"), ("bench", "bench page"), ("checks", "check page"), ("families", "family page")):
        growth = {page: size / few_size for page, few_size, size in _sizes(few, many, folder)}
        most = max(growth, key=lambda page: growth[page])
        print(f"  {most} grows most")
        figures.add(f"size of a {what} among {MANY} families over {FEW}, the most", growth[most], "times", GROWTH)
    for name in ("index.html", "assets/handwheel/data/finder.js", "assets/handwheel/data/pages.js", "sw.js"):
        figures.add(f"{name} among {MANY} families", (many / name).stat().st_size / 1024, "KiB")


def _sizes(few: Path, many: Path, folder: str) -> Iterator[tuple[str, int, int]]:
    """Page, its size in bytes among few families and among many."""
    for path in sorted((few / folder).rglob("*.html")):
        page = path.relative_to(few)
        yield str(page), path.stat().st_size, (many / page).stat().st_size


def test_the_browser_at_size(browser: Browser, made_sites: Sites, figures: Figures, large: bool) -> None:
    made = made_sites(LARGE if large else MANY)
    of = f"{made.families} families, slowed {SLOWED} times"
    usable, keys = [], []
    for _ in range(_RUNS):
        tab = _slow_tab(browser)
        tab.goto((made.site / "index.html").as_uri(), wait_until="load")
        usable.append(tab.evaluate(_FIRST_KEY))
        tab.wait_for_timeout(1000)
        keys += [time for words in ("the fabric doesnt move", "hook screws lose") for time in tab.evaluate(_KEYS, words)]
        tab.context.close()
    figures.add(f"{of}: home answers its first key", usable, "ms", USABLE)
    figures.add(f"{of}: a key, in the middle", keys, "ms", KEY)
    figures.add(f"{of}: a key, at worst", max(keys), "ms", KEY)
    family, symptom = _a_complaint(made.project / "content")
    acts = {
        "choose a machine": ("index", [_CHOOSE]),
        "open the walk": (f"bench/{family}/{symptom}", ["document.querySelector('.hw-walk-start button').click()"]),
        "add work to the plan": ("planner", [f"document.querySelectorAll('#plan-offers input')[{i}].click()" for i in range(3)]),
        "take a machine in": ("practice", ["document.querySelector('#practice-form [type=submit]').click()"] * 3),
        "a look in the key": ("which-machine", ["document.querySelector('.hw-answer').click()"]),
    }
    for name, (page, presses) in acts.items():
        tab = _slow_tab(browser)
        tab.goto((made.site / f"{page}.html").as_uri(), wait_until="load")
        tab.wait_for_timeout(3000)
        figures.add(f"{of}: {name}", [tab.evaluate(_PRESS % press) for press in presses], "ms", PRESS)
        tab.context.close()


def _slow_tab(browser: Browser) -> Page:
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    tab = context.new_page()
    context.new_cdp_session(tab).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    return tab


def _a_complaint(content: Path) -> tuple[str, str]:
    path = sorted((content / "families").iterdir())[0]
    return path.stem, min(yaml.safe_load(path.read_text(encoding="utf-8"))["symptoms"])
