"""From the words of a customer to the printed job sheet, as a technician goes: by finder, bench page, walk and sheet.

A fault is hidden in the machine. Every check is answered as that fault would show itself, so the walk must end at the
remedy that puts it right, and the sheet that it leads to must be the sheet of that work.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from generator.analysis.check_order.case import Hypothesis
from generator.bench import Bench, Complaint
from tests.site.serving import served

JOBS = (
    ("tessaly-40", "misses every other stitch", "skipped-stitches", "hook-gear-cracked"),
    ("bracklow-c", "snapped another needle", "needle-breaks", "hook-timing-off"),
    ("larkrise-h", "material stays in one spot", "no-feed", "feed-height-wrong"),
)
"Machine, the customer's words, the complaint they mean, and the fault that is hidden."


@pytest.fixture(scope="module")
def bench(published) -> Bench:
    return published


@pytest.fixture(scope="module", params=["disk", "host"])
def root(request, site: Path) -> Iterator[str]:
    """The address of the site: from the disk, or from a web host."""
    if request.param == "disk":
        yield site.as_uri()
        return
    with served(site) as address:
        yield address


@pytest.fixture(params=[(390, 844), (1280, 900)], ids=["phone", "desktop"])
def tab(browser, root, request) -> Iterator[Page]:
    """A window without a network, apart from the host itself; a fault in a script or a request elsewhere fails the test."""
    width, height = request.param
    context = browser.new_context(viewport={"width": width, "height": height}, offline=root.startswith("file:"))
    opened = context.new_page()
    faults: list[str] = []
    opened.on("request", lambda r: r.url.startswith((root, "file:", "data:", "blob:")) or faults.append(r.url))
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    assert faults == []
    context.close()


def _find(tab: Page, root: str, family: str, words: str, symptom: str) -> None:
    """The customer's words into the finder, and straight to the bench page."""
    tab.goto(f"{root}/index.html")
    tab.locator("#finder-family").select_option(family)
    tab.locator("#finder").click()
    tab.keyboard.type(words, delay=5)
    found = tab.locator(f"#finder-results [data-symptom={symptom}]").first
    expect(found).to_be_visible(timeout=20_000)
    found.click()
    tab.wait_for_url(f"**/bench/{family}/{symptom}.html*")


def _walk(tab: Page, complaint: Complaint, fault: Hypothesis) -> int:
    """Answers as the fault would, says of a wrong remedy that it did not help; the number of steps to the right one."""
    checks = {check.id: check for check in complaint.case.checks}
    tab.get_by_role("button", name="Walk me through it").click()
    for steps in range(1, 40):
        remedy = tab.locator("#walk [data-remedy]")
        if remedy.count():
            if remedy.get_attribute("data-remedy") == fault.remedy.id:
                return steps
            tab.get_by_role("button", name="Still there").click()
        else:
            check = checks[tab.locator("#walk [data-check]").get_attribute("data-check")]
            tab.locator(f'#walk [data-outcome="{check.sees[fault.id] + 1}"]').click()
    raise AssertionError("No remedy of this fault after forty steps.")


@pytest.mark.parametrize(("family", "words", "symptom", "mode"), JOBS, ids=[job[0] for job in JOBS])
def test_a_customers_words_lead_to_the_printed_sheet_of_the_right_job(tab, root, bench, family, words, symptom, mode):
    view = bench.library.for_family(family)
    complaint = bench.complaint(view, symptom)
    fault = next(h for h in complaint.case.hypotheses if h.causes == (mode,))
    _find(tab, root, family, words, symptom)
    assert _walk(tab, complaint, fault) > 1
    tab.locator("#walk").get_by_role("link", name="Job sheet").click()
    tab.wait_for_url(f"**/jobs/{family}/*.html*")
    title = view.failure_modes[mode].title
    tab.emulate_media(media="print")
    for shown in (".hw-serves", ".hw-jobsteps > li >> nth=0", ".hw-outcome"):
        expect(tab.locator(shown)).to_be_visible()
    expect(tab.locator(".hw-serves")).to_contain_text(title)
    expect(tab.locator(".md-header")).to_be_hidden()
    sides = len(re.findall(rb"/Type\s*/Page\b", tab.pdf(format="A4")))
    assert 1 <= sides <= 2
