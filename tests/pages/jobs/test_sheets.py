"""Job sheets: every step, caution, cell and reading on the page, in order, and on one or two sides of paper."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Collection, Iterable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from generator.bench import Bench
from generator.content_rules import load_checked
from generator.family_view import FamilyView
from generator.library import Library
from generator.pages.jobs import sheets as job_sheets
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.records.report import as_text
from tests.faces import machine, stretched
from tests.pages.jobs.printing import printer
from tests.tags import sound

ROOT = Path(__file__).parents[3]
GEAR = "jobs/probe-1/gear-cracked.html"


ONLINE = "https://bench.example.org/book/"


def made(bench: Bench) -> tuple[Bench, dict[str, PageText]]:
    maker = Maker(bench)
    return bench, {page.address: page for view in bench.library.views for piece in job_sheets.pieces(maker, view, "") for page in piece.pages()}


def coded(bench: Bench, view: FamilyView, addresses: Collection[str]) -> Iterable[PageText]:
    """Sheets with the code that leads back to them; a code takes longer to make than its sheet."""
    return job_sheets.pieces(Maker(bench), view, ONLINE)[0].make(addresses)


@pytest.fixture(scope="module")
def small() -> dict[str, PageText]:
    records, findings = load_checked([ROOT / "tests" / "fixtures" / "jobs"])
    errors = [f for f in findings if f.level == "error"]
    assert not errors, as_text(errors)
    return made(Bench(Library(records)))[1]


@pytest.fixture(scope="module")
def real(published) -> tuple[Bench, dict[str, PageText]]:
    return made(published)


def tree(page: PageText):
    """The page as a parser reads it: unclosed or misplaced tags raise."""
    return sound(f"<!doctype html><html><head><title>x</title></head><body>{page.html}</body></html>")


def steps_of(page) -> list:
    """The steps of a sheet, in order: the entries of its lists of steps."""
    return [step for steps in classed(page, "hw-jobsteps") for step in steps]


def classed(root, name: str) -> Iterator:
    return (e for e in root.iter() if name in e.get("class", "").split())


def text(element) -> str:
    return " ".join("".join(element.itertext()).split())


def test_every_step_of_every_plan_is_on_its_page_in_order_with_its_tray_cells(real) -> None:
    bench, pages = real
    for view in bench.library.views:
        for remedy in set(bench.remedies(view).values()):
            page = tree(pages[f"jobs/{view.id}/{bench.sheet_of(view, remedy.id)}.html"])
            job = bench.job(view, (remedy,))
            shown = steps_of(page)
            assert [s.get("id") for s in shown] == [f"step-{n}" for n in range(1, len(job.plan.steps) + 1)], remedy.id
            for step, row in zip(job.plan.steps, shown, strict=True):
                cells = [int(a.text) for c in classed(row, "hw-cells") for a in c.iter("a")]
                assert cells == list(step.tray), (view.id, remedy.id, step.part)
                if step.do in ("take off", "refit", "renew"):
                    part = view.parts[step.part]
                    said = {"take off": part.off.says, "refit": part.on.says}.get(step.do)
                    assert (said or part.title) in text(row)
                if step.do == "test":
                    assert "Signed by a qualified person" in text(row)
                if step.do == "set":
                    assert view.settings[step.part].title in text(row)
            tray = [li for ol in classed(page, "hw-tray") for li in ol]
            assert [li.get("id") for li in tray] == [f"cell-{c.number}" for c in job.plan.tray]


def test_every_caution_of_a_part_or_setting_stands_before_its_step(real) -> None:
    bench, pages = real
    for view in bench.library.views:
        for remedy in set(bench.remedies(view).values()):
            html = pages[f"jobs/{view.id}/{bench.sheet_of(view, remedy.id)}.html"].html
            for number, step in enumerate(bench.job(view, (remedy,)).plan.steps, 1):
                record = {**view.parts, **view.settings}.get(step.part)
                if record is None or step.do == "oil":
                    continue
                move = {"take off": getattr(record, "off", None), "refit": getattr(record, "on", None)}.get(step.do)
                before = html[: html.index("</h3>", html.index(f'id="step-{number}"'))]
                for caution in (*record.cautions, *(move.cautions if move else ())):
                    assert f'cautions.html#{caution}"' in before, (view.id, remedy.id, step.part, caution)


def test_before_a_tilted_head_goes_down_the_way_is_cleared_once(real) -> None:
    """A tool or a screw left under the head holds it up or is crushed: common practice, no source."""
    bench, pages = real
    leaving = {p.id: p.leaving for p in bench.library.records.positions.values()}
    lines = []
    for view in bench.library.views:
        for remedy in set(bench.remedies(view).values()):
            rows = steps_of(tree(pages[f"jobs/{view.id}/{bench.sheet_of(view, remedy.id)}.html"]))
            for before, step, row in zip(steps := bench.job(view, (remedy,)).plan.steps, steps[1:], rows[1:], strict=False):
                if step.position != before.position and leaving[before.position]:
                    cleared = before.do == "refit" and bool(view.parts[before.part].on.says)
                    lines.append(cleared)
                    assert (leaving[before.position] in text(row)) != cleared, (view.id, remedy.id, step.part)
    assert {True, False} == set(lines)


def test_every_sheet_that_a_failure_mode_leads_to_exists_and_every_family_lists_all_of_its_own(real) -> None:
    bench, pages = real
    for view in bench.library.views:
        address = f"job-list/{view.id}.html"
        listed = {
            posixpath.normpath(posixpath.join("job-list", a.get("href").partition("#")[0]))
            for a in tree(pages[address]).iter("a")
        }
        sheets = {p for p in pages if p.startswith(f"jobs/{view.id}/")}
        assert sheets == {p for p in listed if p.startswith("jobs/")}
        for remedy in bench.remedies(view).values():
            assert f"jobs/{view.id}/{bench.sheet_of(view, remedy.id)}.html" in sheets


def test_a_sheet_says_what_the_hands_need_of_each_joint_where_it_is_first_met(small: dict[str, PageText]) -> None:
    page = tree(small[GEAR])
    steps = {text(next(s.iter("h3"))): text(s) for s in steps_of(page)}
    gear = next(t for h, t in steps.items() if "Take off Hook gear" in h)
    for fact in ("2 × set screw", "3/32 in hex socket", "left-hand thread", "seats on the flat", "on the flat"):
        assert fact in gear
    timing = next(t for h, t in steps.items() if "Set Hook timing" in h)
    assert "as at 3" in timing and "1.8 mm to 2.5 mm" in timing
    refit = next(t for h, t in steps.items() if "Refit Hook gear" in h)
    for note in ("The same way round.", "Fit the new one.", "Put back the hook shim.", "first in the direction of rotation on the flat"):
        assert note in refit


def test_the_closing_tests_are_those_that_the_family_can_sew(small: dict[str, PageText]) -> None:
    """The order and the list are common practice, no source."""
    straight, zigzag = (text(next(classed(tree(small[a]), "hw-tests"))) for a in (GEAR, "jobs/probe-2/lint-packed.html"))
    assert "Reverse" in straight and "zigzag" not in straight and "Longest stitch (4 mm)" in straight
    assert "Widest zigzag (5 mm)" in zigzag and "Reverse" not in zigzag
    for said in (straight, zigzag):
        assert said.startswith("The complaint first: the customer's fabric, thread, stitch and speed.")
        assert said.index("Slow, then fast") < said.index("seam crossing") < said.index("both sides")


def test_a_sheet_has_a_reading_for_each_setting_and_a_line_for_the_tally(small: dict[str, PageText]) -> None:
    page = tree(small[GEAR])
    readings = list(next(classed(page, "hw-readings")).iter("tr"))
    assert [[text(cell) for cell in row] for row in readings[1:]] == [["Hook timing", "1.8 mm to 2.5 mm", "", ""]]
    outcome = text(next(classed(page, "hw-outcome")))
    assert "Gear cracked" in outcome and "Gear stripped" in outcome and "something else" in outcome


def test_money_says_what_it_rests_on(small: dict[str, PageText]) -> None:
    said = text(next(classed(tree(small[GEAR]), "hw-sums")))
    assert "32 min" in said and "€45 to €70" in said and "invented" in said and "rounded outward to €5" in said


def test_a_code_leads_back_to_the_page_only_where_the_site_has_an_address(small, real) -> None:
    assert not list(classed(tree(small[GEAR]), "hw-code"))
    bench, pages = real
    address = next(a for a in pages if a.startswith("jobs/"))
    (page,) = coded(bench, bench.library.for_family(address.split("/")[1]), [address])
    code = next(classed(tree(page), "hw-code"))
    assert code.get("href") == ONLINE + address
    assert [e.tag.endswith("svg") for e in code].count(True) == 1


@pytest.fixture
def sides_of(browser: Browser, tmp_path: Path) -> Iterator[Callable[[PageText], list[int]]]:
    """Sides of each paper that a sheet takes, dressed in the theme's styles and ours."""
    with printer(browser, tmp_path) as printed:
        yield printed


def _hardest(bench: Bench, view: FamilyView, pages: dict[str, PageText], number: int) -> Iterator[tuple[PageText, int]]:
    """Sheets of a family's longest jobs, the wordiest of each size of print, and the longest simple ones; the sides of each.

    With the code that leads back to them.
    """
    jobs = sorted((len(bench.job(view, (r,)).plan.steps), bench.sheet_of(view, r.id)) for r in set(bench.remedies(view).values()))
    all_of_it = {f"jobs/{view.id}/{mode}.html": n for n, mode in jobs}
    by_size = [[a for a in all_of_it if _print_size(pages[a]) == size] for size in ("hw-longest", "hw-long", "")]
    wordiest = [max(sheets, key=lambda a: len(pages[a].html)) for sheets in by_size if sheets]
    simple = [a for a, n in all_of_it.items() if n <= SIMPLE][-number:]
    for page in coded(bench, view, {*[*all_of_it][-number:], *wordiest, *simple}):
        yield page, 1 if all_of_it[page.address] <= SIMPLE else 2


def _print_size(page: PageText) -> str:
    return next((size for size in ("hw-longest", "hw-long") if size in page.html), "")


def test_a_simple_job_prints_on_one_side_and_the_longest_of_every_family_on_two(real, sides_of) -> None:
    bench, pages = real
    for view in bench.library.views:
        for page, most in _hardest(bench, view, pages, 2):
            assert max(sides_of(page)) <= most, page.address


SIMPLE = 4
"Steps of a simple job at most."
SHORTER = 0.97
"Paper of this much of its height still holds a sheet: room for a longer name of a part."


@pytest.mark.parametrize(("family", "wide"), [("Broad", 1.35), ("Slim", 0.7)])
def test_no_face_of_the_readers_machine_changes_the_sides_and_there_is_room_to_spare(real, open_browser, tmp_path, family, wide):
    """The machine has one face alone: broader than the broadest sans in common use, or slimmer than the slimmest."""
    bench, pages = real
    stretched(tmp_path, family, wide)
    other = open_browser(**machine(tmp_path))
    with printer(other, tmp_path, SHORTER) as printed:
        for view in bench.library.views:
            for page, most in _hardest(bench, view, pages, 1):
                assert max(printed(page)) <= most, page.address
    other.close()
