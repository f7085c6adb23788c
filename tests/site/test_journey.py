"""A customer's words to a bench page, in a real browser, from disk, with the network off."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect


@pytest.fixture(params=[(390, 844), (1280, 900)], ids=["phone", "desktop"])
def tab(browser, request):
    width, height = request.param
    context = browser.new_context(viewport={"width": width, "height": height}, offline=True)
    opened = context.new_page()
    opened.asked_outside = []
    opened.errors = []
    opened.on("request", lambda r: r.url.startswith(("file:", "data:", "blob:", "about:")) or opened.asked_outside.append(r.url))
    opened.on("pageerror", lambda error: opened.errors.append(str(error)))
    yield opened
    context.close()


def test_the_finder_takes_a_customers_phrase_straight_to_the_bench_page(tab, site):
    tab.goto((site / "index.html").as_uri())
    tab.locator("#finder-family").select_option("tessaly-40")
    tab.locator("#finder").click()
    tab.keyboard.type("leaves gaps in the seam", delay=10)
    first = tab.locator("#finder-results [data-symptom]").first
    expect(first).to_have_attribute("data-symptom", "skipped-stitches", timeout=20_000)
    first.locator("a").first.click() if first.locator("a").count() else first.click()
    tab.wait_for_url("**/bench/tessaly-40/skipped-stitches.html*")
    expect(tab.locator("h1")).to_contain_text("Skips stitches")
    expect(tab.locator(".hw-checks > li").first).to_be_visible()
    assert tab.asked_outside == []
    assert tab.errors == []


def test_the_pages_of_the_book_are_found_from_disk_too(tab, site):
    tab.goto((site / "index.html").as_uri())
    tab.locator("#finder").click()
    tab.keyboard.type("hook gear cracked", delay=10)
    result = tab.locator("#finder-results [data-page]", has_text="Hook-shaft gear cracked").first
    expect(result).to_be_visible(timeout=20_000)
    assert tab.asked_outside == []
    assert tab.errors == []


def test_a_bench_page_does_not_scroll_sideways(tab, site):
    for path in sorted((site / "bench").rglob("skipped-stitches.html")):
        tab.goto(path.as_uri())
        assert tab.evaluate("document.documentElement.scrollWidth") <= tab.viewport_size["width"]


def test_everything_useful_is_there_without_scripts(browser, site):
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    page.get_by_role("link", name="Skips stitches").first.click()
    page.locator('a[href*="bench/"]').first.click()
    for heading in ("Check in this order", "Likely causes", "Why it can happen", "The check flow"):
        expect(page.get_by_role("heading", name=heading)).to_be_visible()
    context.close()


def test_in_print_the_sheet_is_black_on_white_without_the_frame(browser, site):
    page = browser.new_page(color_scheme="dark")
    page.goto(next((site / "bench").rglob("skipped-stitches.html")).as_uri())
    page.emulate_media(media="print")
    expect(page.locator(".md-header")).to_be_hidden()
    ink = page.locator("h1").evaluate("node => getComputedStyle(node).color")
    assert ink == "rgb(0, 0, 0)"
    page.close()
