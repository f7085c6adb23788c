"""The reckoners in a real browser: the same figures as Python and the handbooks, by keyboard, with faults said."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from generator.analysis.fasteners.near_miss import near_misses
from generator.analysis.timing.gears import candidates
from generator.analysis.timing.needle_bar import Bar
from generator.analysis.timing.needle_bar import row as row_at
from generator.bench import Bench
from generator.content_rules import load_checked
from generator.diagrams import flat_section
from generator.library import Library
from generator.pages.charts import reckoners as reckoners_page
from generator.pages.maker import Maker
from generator.standards.keys import KIND_WORDS, key_for, why_no_key
from generator.standards.notation import parse_thread
from generator.standards.threads import THREADS
from tests.site.some_pages import ROOT, build_pages
from tests.vectors.identify import identify

VECTORS = json.loads((ROOT / "tests" / "vectors" / "reckoners.json").read_text(encoding="utf-8"))

_RUN = """rows => rows.map(({function: name, arguments: given}) => {
  try { return {result: handwheel.reckon[name](...given)}; }
  catch (fault) { return {refused: fault instanceof handwheel.numbers.Refused, says: fault.message}; }
})"""


@pytest.fixture(scope="module")
def library() -> Library:
    records, _ = load_checked([ROOT / "tests" / "records" / "sound"])
    return Library(records)


@pytest.fixture(scope="module")
def small(library, tmp_path_factory) -> Path:
    pages = reckoners_page.pages(Maker(Bench(library)))
    return build_pages(tmp_path_factory.mktemp("reckoners"), pages, dict(reckoners_page.reckoner_files(library)))


@pytest.fixture(scope="module")
def page(browser, small) -> Page:
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened = context.new_page()
    opened.faults = []
    opened.on("pageerror", lambda fault: opened.faults.append(str(fault)))
    opened.goto(f"file://{small}/{reckoners_page.ADDRESS}")
    yield opened
    assert opened.faults == []
    context.close()


def _run(page: Page, rows: list[dict]) -> list[dict]:
    return page.evaluate(_RUN, rows)


def test_every_handbook_value_comes_out_in_the_browser(page):
    """Sources stand beside each value in the vectors."""
    for row, got in zip(VECTORS["handbook"], _run(page, VECTORS["handbook"]), strict=True):
        assert got["result"] == pytest.approx(row["expected"], abs=max(row["within"], 1e-12)), row


def test_the_browser_computes_what_python_computes(page):
    for row, got in zip(VECTORS["computed"], _run(page, VECTORS["computed"]), strict=True):
        wanted = row["result"]
        assert got["result"] == (wanted if isinstance(wanted, str) else pytest.approx(wanted, rel=1e-12, abs=1e-12)), row


def test_what_python_refuses_the_browser_refuses_in_a_sentence(page):
    for row, got in zip(VECTORS["refused"], _run(page, VECTORS["refused"]), strict=True):
        assert got.get("refused") is True, row
        assert re.fullmatch(r"[A-Z0-9].*\.", got["says"]), got


def _python_thread(text: str) -> dict:
    try:
        thread = parse_thread(text)
    except ValueError as fault:
        return {"says": str(fault).split(" Near ones:")[0]}
    return {"name": thread.name, "diameter": float(thread.diameter_mm), "pitch": float(thread.pitch_mm)}


WRITTEN = (
    *THREADS,
    "No. 10-32 UNF", "#8-32", "M4 × 0,7", "m4", "M3.5", "M2,5x.45", '3/32"-56', "11/64 x 40", "1 1/4-12", "2/8-20",
    "10 - 32 tpi", "10-32 UNC", "1/4-20 UNC-2A", "M4.7", "8/32", "10", "1/4", "M4x9", "31-20", "10-0", "", "bolt", "M0.5x0.01",
    "4/4-8", "7-99", "2-56UNC",
)  # fmt: skip


def test_threads_are_read_as_python_reads_them(page):
    got = page.evaluate(
        """texts => texts.map((text) => {
          try { const {name, diameter, pitch} = handwheel.reckon.parse_thread(text); return {name, diameter, pitch}; }
          catch (fault) { return {says: fault.message}; }
        })""",
        list(WRITTEN),
    )
    for text, found in zip(WRITTEN, got, strict=True):
        wanted = _python_thread(text)
        assert found.get("says") == wanted.get("says"), text
        assert found.get("name") == wanted.get("name"), text
        assert found.get("diameter", 0) == pytest.approx(wanted.get("diameter", 0)), text
        assert found.get("pitch", 0) == pytest.approx(wanted.get("pitch", 0)), text


def test_keys_and_near_misses_are_those_of_python(page):
    asked = [(t, kind) for t in (*THREADS, "30-20", "1/1-8", "M15x2", "M2.3", "1/16-64") for kind in KIND_WORDS if not t.startswith("M2.3") or "x" in t]
    got = page.evaluate(
        """asked => asked.map(([text, kind]) => {
          const thread = handwheel.reckon.parse_thread(text), key = handwheel.reckon.key_for(thread, kind);
          return key ? {size: key.size, screw: key.screw, source: key.source, misses: handwheel.reckon.near_misses(key).map(m => m.says)}
                     : {why: handwheel.reckon.why_no_key(thread, kind)};
        })""",
        [list(pair) for pair in asked],
    )
    for (text, kind), found in zip(asked, got, strict=True):
        key = key_for(parse_thread(text), kind)
        if key is None:
            assert found == {"why": why_no_key(parse_thread(text), kind)}
        else:
            misses = [m.says for m in near_misses(key.size)]
            assert found == {"size": str(key.size), "screw": key.screw, "source": key.source, "misses": misses}, text


def test_an_unknown_screw_is_named_as_python_names_it(page):
    readings = [[d / 100, p / 1000] for d in range(180, 820, 37) for p in (350, 450, 500, 635, 700, 794, 1000, 1270)]
    got = page.evaluate("all => all.map(([d, p]) => handwheel.reckon.identify(d, p).map(c => [c.thread.name, c.fits]))", readings)
    for (diameter, pitch), found in zip(readings, got, strict=True):
        assert found == [[c.thread.name, c.fits] for c in identify(diameter, pitch)]


def test_a_gear_is_named_as_python_names_it(page):
    measured = [(d / 10, z, b) for d in range(90, 500, 41) for z in (12, 14, 30) for b in (0, 45)]
    got = page.evaluate("all => all.map(m => handwheel.reckon.gear_candidates(...m).map(c => [c.system, c.size, c.error]))", [list(m) for m in measured])
    for given, found in zip(measured, got, strict=True):
        for (system, size, error), wanted in zip(found, candidates(*given), strict=True):
            assert (system, size) == (wanted.system, wanted.size), given
            assert error == pytest.approx(wanted.error, abs=1e-9)


def test_timing_is_reckoned_as_on_the_timing_sheets(page):
    page.reload()
    wanted = row_at(Bar(32, 46), 2.2)
    expect(page.locator("#rise-out")).to_contain_text(f"{wanted.degrees:.1f}° after lowest")
    expect(page.locator("#rise-out")).to_contain_text(f"{wanted.rate:.3f} mm of rise")
    expect(page.locator("#ten-out")).to_contain_text("10 stitches to the inch")  # 25.4 mm, exactly
    expect(page.locator("#ten-out")).to_contain_text("0.09 mm to a stitch shorter")
    expect(page.locator("#gear-out .hw-result")).to_have_text("module 1: to a hundredth")
    expect(page.locator("#speed-out .hw-result")).to_contain_text("7200 turns")


def _drawn(svg: str) -> list[tuple[str, list[float]]]:
    """Shapes and words in order, with their numbers; ids and looks left out."""
    shapes = re.findall(r'<(path|polygon|circle)[^>]*?(?: d| points| cx)="[^"]*"[^>]*>', svg)
    numbers = [float(n) for n in re.findall(r"-?\d+\.\d", " ".join(re.findall(r' (?:d|points|cx|cy|r)="([^"]*)"', svg)))]
    return shapes, numbers, re.findall(r"<text[^>]*>([^<]*)</text>", svg)


@pytest.mark.parametrize(("shaft", "flat", "thread"), [(8, 4, "10-32"), (6.35, 2.5, "M4"), (20, 12, "1/4-20"), (5, 5, "M3x0.35")])
def test_the_section_is_drawn_as_python_draws_it(page, shaft, flat, thread):
    got = page.evaluate(
        "([s, f, t]) => handwheel.drawings.flatSection(s, f, handwheel.reckon.parse_thread(t)).outerHTML", [shaft, flat, thread]
    )
    shapes, numbers, words = _drawn(got)
    wanted_shapes, wanted_numbers, wanted_words = _drawn(flat_section.svg(shaft, flat, parse_thread(thread)))
    assert sorted(shapes) == sorted(wanted_shapes) and len(shapes) > 20
    assert sorted(numbers) == pytest.approx(sorted(wanted_numbers), abs=0.11)
    assert words == wanted_words


def test_the_section_moves_with_the_numbers(page):
    page.reload()
    drawing = page.locator("#flat-drawing svg")
    expect(drawing).to_contain_text("shaft 8 mm")
    before = drawing.locator(".screw").nth(1).get_attribute("points")
    page.get_by_label("Width of the flat").fill("6")
    expect(drawing).to_contain_text("flat 6 mm")
    assert drawing.locator(".screw").nth(1).get_attribute("points") != before


def test_a_fault_stands_beside_its_field_and_takes_the_old_answer_away(page):
    page.reload()
    field = page.get_by_label("Width of the flat")
    expect(page.locator("#flat-out")).to_contain_text("take it right out if in doubt")
    field.fill("9")
    expect(field).to_have_attribute("aria-invalid", "true")
    fault = page.locator(f"#{field.get_attribute('aria-describedby')}")
    expect(fault).to_have_text("A flat 9 wide does not go on a shaft 8 thick: measure both again.")
    expect(page.locator("#flat-out .hw-result")).to_have_count(0)
    field.fill("4")
    expect(field).not_to_have_attribute("aria-invalid", "true")


def test_the_whole_page_works_from_the_keyboard(page):
    page.reload()
    page.get_by_label("Thread", exact=True).focus()
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("M4")
    page.keyboard.press("Enter")
    expect(page.locator("#key-out .hw-result")).to_contain_text("2 mm key")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")
    expect(page.locator("#key-out .hw-result")).to_contain_text("3 mm key")


def test_inches_are_taken_as_well_as_millimetres(page):
    page.reload()
    page.get_by_label("Shaft", exact=True).fill("1/2")
    page.get_by_label("Width of the flat").fill("1/8")
    page.get_by_label("Both in").select_option("in")
    # ANSI B17.1 gives S .430 for a 1/2 in shaft and a 1/8 in key: depth of the chord .0079 in.
    expect(page.locator("#flat-out")).to_contain_text("(0.008 in) deep")


def test_a_packets_two_needle_numbers_are_read_and_held_against_each_other(page):
    page.reload()
    field = page.locator("#needle-needle")
    for text in ("80/12", "12/80", "80"):
        field.fill(text)
        expect(page.locator("#needle-out .hw-result")).to_have_text("80/12")
    field.fill("80/14")
    expect(page.locator("#needle-needle-fault")).to_have_text("80 goes with 12, not with 14: read the packet again.")
    field.fill("14")
    expect(page.locator("#needle-needle-fault")).to_contain_text("as the older American one it is 90/14")


def test_size_and_plies_of_a_thread_are_said_as_they_were_read(page):
    page.reload()
    out = page.locator("#thread-size-out")
    page.locator("#thread-size-size").fill("60/3")
    expect(out).to_contain_text("Read as tex, 60 for the whole thread, of 3 plies.")
    expect(out).to_contain_text("If 60 is a ticket number, the thread is 50 tex.")
    page.locator("#thread-size-system").select_option("metric")
    expect(out).to_contain_text("3 plies of 60 each: 20 for the whole thread")
    expect(out.locator("dd b").first).to_have_text("50")


def test_fields_have_names_room_for_a_thumb_and_answers_are_announced(page):
    page.reload()
    fields = page.locator(".hw-reckoner :is(input, select)")
    for number in range(fields.count()):
        box = fields.nth(number).bounding_box()
        assert box["height"] >= 44, fields.nth(number).get_attribute("id")
        assert fields.nth(number).evaluate("field => field.labels.length") == 1
    for region in page.locator(".hw-reckoned").all():
        assert region.get_attribute("role") == "status"
        assert region.inner_text().strip()
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_without_scripts_the_tables_stand(browser, small):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"file://{small}/{reckoners_page.ADDRESS}")
    for words in ("Keys for set screws and cap screws", "Threads in this book", "Needle sizes"):
        page.get_by_text(words).click()
    expect(page.get_by_role("row", name="10 3/32 in 5/32 in")).to_be_visible()
    expect(page.get_by_role("row", name="M4 2 mm 3 mm")).to_be_visible()
    expect(page.locator(".hw-reckoner form").first).to_be_hidden()
    context.close()
