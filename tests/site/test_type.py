"""The site's own type: there from a host and from disk, whole, light, and well stood in for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
import reportlab
from playwright.sync_api import Browser, Page
from reportlab.pdfbase._fontdata import widthsByFontGlyph

from generator.diagrams import text
from tests.faces import OURS, SHEET, face, machine, shipped, with_widths, without_ours
from tests.site.serving import served

LARGEST = 60_000
"Bytes of the style sheet that carries both weights."
NEAR = 0.03
"Of a page's height, where another face stands in."

PAGES = ("index", "bench/tessaly-40/skipped-stitches", "jobs/tessaly-40/hook-gear-cracked", "families/tessaly-40", "planner", "sources")
DEEP = "bench/tessaly-40/skipped-stitches.html"

_LOADED = """async (family) => {
  const faces = [...document.fonts].filter((face) => face.family.includes(family));
  await Promise.all(faces.map((face) => face.load().catch(() => null)));
  return faces.map((face) => [face.weight, face.status]).sort();
}"""
_WIDTH = """([words, weight, family]) => {
  const pen = document.createElement('canvas').getContext('2d');
  pen.font = `${weight} 100px ${family}`;
  pen.fontKerning = 'none';
  return pen.measureText(words).width;
}"""
_WORDS = "Turn the hand wheel towards you: 3/32 in, ½ turn, −40 °C → 12 min"


@pytest.fixture(scope="module")
def host(site: Path) -> Iterator[str]:
    with served(site) as address:
        yield address


def _words(path: Path) -> set[str]:
    html = re.sub(r"<(script|style)\b.*?</\1>", "", path.read_text(encoding="utf-8"), flags=re.S)
    return set(unescape(html))


def test_every_character_that_the_site_prints_is_in_both_weights(site):
    printed = set().union(*map(_words, site.rglob("*.html")))
    for script in (site / "assets" / "handwheel").rglob("*.js"):
        printed |= set(script.read_text(encoding="utf-8"))
    printed = {char for char in printed if char.isprintable()}
    assert {"½", "€", "×", "°"} <= printed
    for weight in (400, 700):
        lost = {char for char in printed if ord(char) not in face(weight).getBestCmap()}
        assert lost == set(), weight


def test_it_is_light_and_goes_under_a_name_that_its_licence_does_not_reserve(site):
    assert SHEET.stat().st_size < LARGEST
    licence = (site / "assets" / "handwheel" / "type" / "OFL.txt").read_text(encoding="utf-8")
    reserved = re.search(r'Reserved Font Name "([^"]+)"', licence)[1]
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    for weight in (400, 700):
        names = [face(weight)["name"].getDebugName(number) for number in (1, 4, 6)]
        assert names[0] == OURS
        assert not any(reserved.replace(" ", "").lower() in name.replace(" ", "").lower() for name in names)
    sources = (site / "sources.html").read_text(encoding="utf-8")
    assert re.search(r'href="?assets/handwheel/type/OFL[.]txt\b', sources) and OURS in sources


@pytest.mark.parametrize("place", ["host", "disk"])
def test_it_is_what_a_page_is_set_in_from_a_host_and_from_disk(browser: Browser, site, host, place):
    tab = browser.new_page()
    tab.goto(f"{host}/{DEEP}" if place == "host" else (site / DEEP).as_uri())
    assert tab.evaluate(_LOADED, OURS) == [["400", "loaded"], ["700", "loaded"]]
    used = tab.evaluate("[document.body, document.querySelector('.hw-check'), document.querySelector('.hw-diagram text')].map((e) => getComputedStyle(e).fontFamily)")
    assert [family.split(",")[0].strip('"') for family in used] == [OURS] * 3
    for weight in (400, 700):
        unit, widths, names = face(weight)["head"].unitsPerEm, face(weight)["hmtx"], face(weight).getBestCmap()
        expected = sum(widths[names[ord(char)]][0] for char in _WORDS) * 100 / unit
        assert tab.evaluate(_WIDTH, [_WORDS, weight, f'"{OURS}"']) == pytest.approx(expected, rel=0.002)
    tab.close()


def test_pictures_are_measured_by_the_very_face_that_is_shipped():
    for weight, strong in ((400, False), (700, True)):
        unit, widths = face(weight)["head"].unitsPerEm, face(weight)["hmtx"]
        for code, glyph in face(weight).getBestCmap().items():
            assert text.width(chr(code), 1000, strong) >= widths[glyph][0] * 1000 / unit, chr(code)


def test_figures_stand_under_one_another():
    for weight in shipped():
        widths, names = face(weight)["hmtx"], face(weight).getBestCmap()
        assert len({widths[names[ord(figure)]][0] for figure in "0123456789"}) == 1


def _bitstream(folder: Path) -> None:
    """A broad face that a package brings: the older twin of the usual sans of a bare Linux desktop."""
    for name in ("Vera.ttf", "VeraBd.ttf"):
        (folder / name).write_bytes((Path(reportlab.__file__).parent / "fonts" / name).read_bytes())


def _helvetica_widths(folder: Path) -> None:
    """A face with the widths that Adobe publishes for the base PostScript sans, which the usual office sans shares."""
    signs = {"space": " ", "period": ".", "comma": ",", "hyphen": "-", "colon": ":", "slash": "/", "percent": "%", "parenleft": "(", "parenright": ")"}
    signs |= dict(zip(("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"), "0123456789", strict=True))
    for weight, name in ((400, "Helvetica"), (700, "Helvetica-Bold")):
        glyphs = widthsByFontGlyph[name]
        widths = {signs.get(glyph, glyph): width for glyph, width in glyphs.items() if len(signs.get(glyph, glyph)) == 1}
        with_widths(folder, "Arial", weight, widths)


def _heights(tab: Page, host: str) -> dict[tuple[str, int], float]:
    found = {}
    for width in (390, 1280):
        tab.set_viewport_size({"width": width, "height": 900})
        for page in PAGES:
            tab.goto(f"{host}/{page}.html")
            tab.evaluate("document.fonts.ready")
            found[page, width] = tab.evaluate("document.querySelector('.md-content').getBoundingClientRect().height")
    return found


@pytest.mark.parametrize("brought", [_bitstream, _helvetica_widths], ids=["broad", "usual"])
def test_where_it_is_missing_a_face_of_the_reader_takes_the_same_room(open_browser, tmp_path, host, brought):
    brought(tmp_path)
    other = open_browser(**machine(tmp_path))
    tab = other.new_page(service_workers="block")
    ours = _heights(tab, host)
    tab.route("**/css/book.css", lambda route: route.fulfill(body=without_ours(route.fetch().text()), content_type="text/css"))
    theirs = _heights(tab, host)
    assert tab.evaluate(_LOADED, OURS) == []
    other.close()
    off = {key: round(theirs[key] / ours[key] - 1, 3) for key in ours}
    assert theirs != ours and max(map(abs, off.values())) <= NEAR, off
