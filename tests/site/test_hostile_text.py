"""Whatever a record says, it shows as words: on every kind of page, in the data, in the pictures."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from lxml.etree import XPath
from playwright.sync_api import expect

from generator import site_build
from generator.content_rules import load_checked
from tests.site.hostile import STRIKE, hostile_records
from tests.site.some_pages import ROOT, build_pages
from tests.tags import read

FAMILY = "tessaly-40"
SYMPTOMS = ("skipped-stitches", "knocking")
PAGES = (
    "index.html", "symptoms.html", "families.html", "assemblies.html", "checks.html", "failure-modes.html",
    "cautions.html", "tools.html", "techniques.html", "glossary.html", "sources.html",
    f"families/{FAMILY}.html", f"fasteners/{FAMILY}.html", f"oil-chart/{FAMILY}.html",
    f"settings-order/{FAMILY}.html", f"job-list/{FAMILY}.html", f"jobs/{FAMILY}/hook-gear-cracked.html",
    f"coverage/{FAMILY}.html", "coverage.html", f"bench/{FAMILY}/{SYMPTOMS[0]}.html", f"bench/{FAMILY}/{SYMPTOMS[1]}.html",
    f"symptoms/{SYMPTOMS[0]}.html", "assemblies/rotary-hook-geared.html", "failure-modes/hook-gear-cracked.html",
    "checks/watch-hook-while-turning.html", "checks/read-thread-end.html", "techniques/free-a-bound-part.html",
)  # fmt: skip
"One of each kind that records make; the rest are below."
_TEXT_RULES = ("Raw HTML", "The text holds a character that cannot be seen")


def _one_family(folder: Path) -> Path:
    """The real records with one family of two complaints: every kind of record, and a site that is soon made."""
    shutil.copytree(ROOT / "content", folder, ignore=shutil.ignore_patterns("guides"))
    for kind in ("families", "fasteners", "bench"):
        for path in (folder / kind).glob("*.yaml"):
            if path.stem != FAMILY:
                path.unlink()
    family = folder / "families" / f"{FAMILY}.yaml"
    family.write_text(f"{family.read_text(encoding='utf-8')}symptoms: [{', '.join(SYMPTOMS)}]\n", encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> tuple[Path, int]:
    """Records of nothing but hostile text, and how many texts they hold."""
    base = tmp_path_factory.mktemp("hostile")
    return base / "content", hostile_records(_one_family(base / "sound"), base / "content")


@pytest.fixture(scope="module")
def site(folder, tmp_path_factory) -> Path:
    """The site that comes of them when the rules about text are not asked."""
    def unasked(folders, cache):
        return load_checked(folders)[0], ()

    base = tmp_path_factory.mktemp("built")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site_build, "load_kept", unasked)
        made = site_build.build([folder[0]], base / "cache", "")
    return build_pages(base / "pages", made.pages, made.data)


def test_the_rules_name_every_one_of_them(folder):
    """So that such a record is not published at all; what follows holds if one slips through."""
    content, texts = folder
    _, findings = load_checked([content])
    assert texts > 5_000
    for rule in _TEXT_RULES:
        assert sum(f.message.startswith(rule) for f in findings) == texts

_PLANTED = re.compile(r"<script>window\.struck|<img src=x|<[a-z]+ [^<>\"']*(?:href|src)=[\"']?(?:javascript:|(?:https?:)?//out\.example)", re.I)
_RUNS_OR_LEADS_OUT = XPath(
    "//@*[starts-with(name(), 'on') or name() = 'style' or name() = 'srcdoc' or name() = 'formaction' or name() = 'action']"
    " | //@*[(name() = 'href' or name() = 'src' or name() = 'xlink:href') and (contains(., ':') or starts-with(., '//'))]"
    " | //script[not(@src) and not(@type = 'application/json' or @type = 'application/ld+json')] | //style | //template"
    " | //iframe | //frame | //object | //embed | //base | //image | //video | //audio | //marquee | //math | //link[not(ancestor::head)]"
)
"Nothing of this stands on any page of ours."


def test_no_page_picture_or_data_file_holds_one_as_markup(site):
    files = sorted(p for p in site.rglob("*") if p.suffix in (".html", ".js", ".svg", ".atom"))
    assert len(files) > 900
    texts = {str(p.relative_to(site)): p.read_text(encoding="utf-8") for p in files}
    assert [name for name, text in texts.items() if _PLANTED.search(text)] == []
    pages = {name: read(text)[0] for name, text in texts.items() if name.endswith(".html")}
    assert {name: found[:3] for name, page in pages.items() if (found := _RUNS_OR_LEADS_OUT(page))} == {}
    told = [json.loads(block) for page in pages.values() for block in page.xpath("//script[@type = 'application/ld+json']/text()")]
    assert sum("</script>" in block["name"] for block in told) > 100  # whole, with the text that would end it


@pytest.fixture(scope="module")
def tab(browser):
    """Without the pages' own policy: it is a second wall, and the first must stand alone."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True, bypass_csp=True)
    opened = context.new_page()
    faults: list[str] = []
    opened.on("pageerror", lambda fault: faults.append(str(fault)))
    opened.on("request", lambda r: r.url.startswith(("file:", "data:", "blob:")) or faults.append(r.url))
    yield opened
    assert faults == []
    context.close()


_HARM = """() => {
    const led = (e) => e.hasAttribute("href") && !/^(file|blob|data:text\\/csv)/.test(new URL(e.href.baseVal ?? e.href, location).href);
    const bad = "script:not([type='application/ld+json']), style, iframe, object, embed, base, template, img[src=x], [srcdoc]";
    const within = [...document.querySelectorAll("article, article *, .md-header, .md-header *, .md-sidebar *")];
    const found = within.filter((e) => led(e) || e.getAttributeNames().some((name) => name.startsWith("on")) || (e.closest("article") && e.matches(bad)));
    return [...found.map((e) => e.outerHTML.slice(0, 200)), ...(window.struck ? ["struck"] : [])];
}"""


def _unharmed(tab) -> None:
    assert tab.evaluate(_HARM) == []
    assert tab.evaluate("document.documentElement.scrollWidth") <= 390


@pytest.mark.parametrize("address", PAGES)
def test_a_page_shows_it_as_words_and_stays_within_a_phone(tab, site, address):
    tab.goto((site / address).as_uri())
    tab.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    expect(tab.locator("article").first).to_contain_text(STRIKE)
    _unharmed(tab)


def test_the_finder_shows_it_as_words(tab, site):
    tab.goto((site / "index.html").as_uri())
    tab.locator("#finder").click()
    tab.keyboard.type("misses stitches", delay=10)
    expect(tab.locator("#finder-results [data-symptom=skipped-stitches]")).to_contain_text(STRIKE)
    _unharmed(tab)


def test_the_list_of_pages_shows_it_as_words(tab, site):
    tab.goto((site / "index.html").as_uri())
    tab.locator("#finder").click()
    tab.keyboard.type("hook gear", delay=10)
    expect(tab.locator("#finder-results [data-page]").first).to_contain_text("window.struck", timeout=20_000)
    _unharmed(tab)


def test_the_walk_shows_it_as_words(tab, site):
    tab.goto((site / "bench" / FAMILY / f"{SYMPTOMS[0]}.html").as_uri())
    tab.get_by_role("button", name="Walk me through it").click()
    for _ in range(3):
        expect(tab.locator("#walk [data-check]")).to_contain_text(STRIKE)
        tab.locator("#walk [data-outcome]").last.click()
    _unharmed(tab)


def test_the_planner_shows_it_as_words(tab, site):
    tab.goto(f"{(site / 'planner.html').as_uri()}#family={FAMILY}&for=hook-gear-cracked")
    tab.reload()
    expect(tab.locator("#plan-sheet .hw-jobsteps > li").first).to_contain_text(STRIKE)
    _unharmed(tab)


def test_a_case_of_the_practice_bench_shows_it_as_words(tab, site):
    tab.goto(f"{(site / 'practice.html').as_uri()}#{FAMILY}/7")
    tab.reload()
    expect(tab.locator("[data-does=check]").first).to_contain_text(STRIKE)
    _unharmed(tab)


GARBAGE = ('5', '"=1+1"', "{}", "[null, 7, {}]", '[{"saw": {}, "date": "2026-01-01", "cause": ["x"], "could": 3, "family": "=cmd", "title": {}}]')
"What another program, an older edition or a stranger's hand may have left under the names that pages keep."


def test_what_the_device_kept_is_checked_as_it_is_read(tab, site):
    """Nothing trips (the tab's own check), nothing runs, and no formula comes to stand in a table."""
    kept = ("family", "finished", "practice.scores", "not-listed", f"walk.{FAMILY}.{SYMPTOMS[0]}", f"walking.{FAMILY}.{SYMPTOMS[0]}")
    for turn in range(3):
        left = {f"handwheel.{name}": GARBAGE[(turn * 2 + number) % len(GARBAGE)] for number, name in enumerate(kept)}
        tab.goto((site / "on-this-device.html").as_uri())
        tab.evaluate("(left) => Object.entries(left).forEach(([name, text]) => localStorage.setItem(name, text))", left)
        for address in ("on-this-device", f"bench/{FAMILY}/{SYMPTOMS[0]}", "practice", "not-listed"):
            tab.goto((site / f"{address}.html").as_uri())
            _unharmed(tab)
    tab.goto((site / "on-this-device.html").as_uri())
    assert tab.locator("#finished-text").input_value().count("\n") == 1
    tab.evaluate("localStorage.clear()")
