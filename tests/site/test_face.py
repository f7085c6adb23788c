"""The site's own face: its mark, its icons, its words in the theme's frame, its page for lost visitors."""

from __future__ import annotations

import re
import struct
from html import unescape
from pathlib import Path

import html5lib
import material
import pytest
from playwright.sync_api import Browser

from tests.site.reading import framed

THEME = Path(material.__file__).parent / "templates"
PAGES = ("index.html", "bench/tessaly-40/skipped-stitches.html", "jobs/tessaly-40/hook-gear-cracked.html", "sources.html", "404.html")
MARK = Path("assets/handwheel/mark")


def _stock_sentences() -> set[str]:
    """What the theme says of itself where nobody gives it other words: sentences, not single words."""
    table = (THEME / "partials" / "languages" / "en.html").read_text(encoding="utf-8")
    said = {words for key, words in re.findall(r'"([\w.]+)": "([^"]+)"', table) if "config" not in key}
    return {words for words in said if " " in words} | {"404 - Not found", "Made with"}


def test_no_page_has_a_sentence_of_the_themes_stock(site):
    stock = _stock_sentences()
    assert len(stock) > 15
    for address in PAGES:
        html = unescape((site / address).read_text(encoding="utf-8"))
        assert {words for words in stock if words in html} == set(), address


def test_the_head_of_every_page_has_our_mark_and_not_the_themes(browser, site):
    stock = re.search(r'd="([^"]+)"', (THEME / ".icons" / "material" / "library.svg").read_text(encoding="utf-8"))[1]
    ours = re.search(r'stroke-width="3.2" d="([^"]+)"', (site / MARK / "icon.svg").read_text(encoding="utf-8"))[1]
    shape = re.search(r"\.hw-mark [{].*?stroke-width='3.2' d='([^']+)'", (site / "assets/handwheel/css/book.css").read_text(encoding="utf-8"), re.S)[1]
    assert shape.split("M") == "".join(ours.split("\n")).split("M")
    for address in PAGES:
        html = framed(browser, site / address)
        head = html.partition("<header")[2].partition("</header>")[0]
        assert "".join(stock.split()) not in "".join(html.split()) and len(re.findall('class="?hw-mark"?>', head)) == 1, address


def test_every_page_names_its_icons_and_they_are_the_sizes_that_browsers_ask_for(browser, site):
    """48 px: a multiple of the 16 px of a tab. 180 px: a phone's home screen; common practice, no source."""
    for address in PAGES:
        whole = (site / address).read_text(encoding="utf-8") if address == "404.html" else framed(browser, site / address)
        root = html5lib.parse(whole, namespaceHTMLElements=False)
        icons = {link.get("rel"): link.get("href") for link in root.iter("link") if "icon" in link.get("rel", "")}
        assert set(icons) == {"icon", "alternate icon", "apple-touch-icon"}
        for href in icons.values():
            place = site / href.lstrip("/") if href.startswith("/") else (site / address).parent / href
            assert place.resolve().is_relative_to((site / MARK).resolve()) and place.is_file(), (address, href)
    for name, size in (("icon.png", 48), ("touch-icon.png", 180)):
        assert struct.unpack(">II", (site / MARK / name).read_bytes()[16:24]) == (size, size)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_mark_is_seen_in_the_light_and_in_the_dark_from_disk(browser: Browser, site, scheme):
    tab = browser.new_page(color_scheme=scheme)
    tab.goto((site / "index.html").as_uri())
    logo = tab.locator(".md-header .md-logo .hw-mark")
    assert logo.bounding_box()["height"] >= 20
    ink, ground = tab.evaluate("['.md-header .hw-mark', '.md-header'].map(s => getComputedStyle(document.querySelector(s)).backgroundColor)")
    assert tab.evaluate("getComputedStyle(document.querySelector('.hw-mark')).maskImage").startswith('url("data:image/svg+xml')
    light, dark = sorted((_luminance(ink), _luminance(ground)), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5
    tab.close()


def _luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_a_lost_visitor_is_told_so_and_shown_three_ways_on(site):
    root = html5lib.parse((site / "404.html").read_text(encoding="utf-8"), namespaceHTMLElements=False)
    article = next(root.iter("article"))
    assert "".join(next(article.iter("h1")).itertext()).strip() == "No such page"
    assert {"/index.html", "/families.html", "/symptoms.html"} <= {a.get("href") for a in article.iter("a")}
    assert "No such page" in next(root.iter("title")).text


AROUND = ("header", "nav", "main", "footer")


def _landmarks(html: str) -> list[tuple[str, str | None]]:
    """Every landmark around the content, and what it is called, for a browser with scripts."""
    root = html5lib.parse(html, namespaceHTMLElements=False)
    inside = {element for tag in ("article", "noscript") for part in root.iter(tag) for element in part.iter()}
    marks = (e for e in root.iter() if e.tag in AROUND and e not in inside)
    return [(e.tag, e.get("aria-label") or e.get("aria-labelledby")) for e in marks]


def test_a_page_whose_frame_is_laid_has_the_landmarks_of_one_that_holds_it(browser: Browser, site):
    """A hub holds its frame, and within the navigation the list of what stands on it."""
    held = [mark for mark in _landmarks((site / "cautions.html").read_text(encoding="utf-8")) if mark != ("nav", "On this page")]
    laid = [mark for mark in _landmarks(framed(browser, site / "checks/read-the-controls.html")) if mark != ("nav", "On this page")]
    assert laid == held and ("nav", "All parts of the book") in held and ("footer", None) in held
