"""The whole book without a signal, from a web host; and what the device keeps, shown and cleared."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.site.serving import served


def build(folder: Path) -> Path:
    subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"],
        cwd=folder,
        check=True,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
    )
    return folder / "site"


@pytest.fixture
def host(project: Path) -> Iterator[str]:
    with served(project / "site") as address:
        yield address


@pytest.fixture
def tab(browser):
    context = browser.new_context()
    yield context.new_page()
    context.close()


ALL_KEPT = """async () => {
    const registration = await navigator.serviceWorker.ready;
    registration.active.postMessage("keep-all");
    const names = (await caches.keys()).filter((n) => n.startsWith("handwheel-"));
    if (names.length !== 1) return false;
    const cache = await caches.open(names[0]);
    const ledger = await cache.match(new URL("handwheel-ledger.json", location.href).href);
    if (!ledger) return false;
    return (await cache.keys()).length === Object.keys(await ledger.json()).length + 1;
}"""

NEW_PAGE_KEPT = """async () => {
    const page = await caches.match(new URL("symptoms/skipped-stitches.html", location.href).href);
    return Boolean(page) && (await page.text()).includes("Written after the first visit.");
}"""


def eventually(tab, script: str) -> None:
    """Waits until an async function in the page gives true."""
    for _ in range(200):
        if tab.evaluate(script):
            return
        tab.wait_for_timeout(300)
    pytest.fail(f"This never came true: {script}")


def keep_all(tab, host: str) -> None:
    tab.goto(f"{host}/index.html")
    eventually(tab, ALL_KEPT)


def test_a_page_never_visited_opens_without_a_signal(tab, host):
    keep_all(tab, host)
    tab.context.set_offline(True)
    tab.goto(f"{host}/symptoms/skipped-stitches.html")
    expect(tab.locator("h1")).to_contain_text("Skips")


def test_a_new_build_replaces_what_was_kept(tab, host, project):
    keep_all(tab, host)
    record = project / "content" / "symptoms" / "skipped-stitches.yaml"
    record.write_text(record.read_text(encoding="utf-8") + "\nsummary: Written after the first visit.\n", encoding="utf-8")
    build(project)
    keep_all(tab, host)
    eventually(tab, NEW_PAGE_KEPT)
    tab.context.set_offline(True)
    tab.goto(f"{host}/symptoms/skipped-stitches.html")
    expect(tab.get_by_text("Written after the first visit.").first).to_be_visible()


def test_what_the_device_keeps_is_shown_and_cleared(tab, host):
    tab.goto(f"{host}/on-this-device.html")
    tab.evaluate("handwheel.device.write('unknown', '<b>x</b>')")
    tab.evaluate("handwheel.device.write('family', 'testa-1')")
    tab.evaluate("handwheel.device.write('walk.testa-1.skipped-stitches', [['check', 'a', 0]])")
    tab.evaluate("handwheel.device.write('walking.testa-1.skipped-stitches', true)")
    tab.reload()
    titles = tab.locator("[data-kept] > b")
    wanted = {"unknown", "Machine chosen: Testa 1-series", "Walk: Skips stitches, Testa 1-series, 1 answer"}
    expect(titles).to_have_count(3)
    assert set(titles.all_text_contents()) == wanted
    expect(tab.locator("[data-kept='unknown'] code")).to_have_text('unknown: "<b>x</b>"')
    expect(tab.locator("[data-kept='unknown'] code")).to_be_hidden()
    walk = tab.locator("[data-kept^='walk']")
    assert walk.get_by_role("link", name="Go on").get_attribute("href").endswith("bench/testa-1/skipped-stitches.html")
    walk.get_by_role("button", name="Forget").click()
    expect(titles).to_have_count(2)
    assert set(tab.evaluate("handwheel.device.names()")) == {"unknown", "family"}
    tab.get_by_role("button", name="Forget all of it").click()
    expect(tab.locator("[data-kept]")).to_have_count(0)
    assert tab.evaluate("handwheel.device.names()") == []
    assert tab.context.cookies() == []


def test_the_live_preview_has_no_service_worker(project):
    assert (project / "site" / "sw.js").is_file()
    from generator.plugin import HandwheelPlugin

    plugin = HandwheelPlugin()
    plugin.on_startup(command="serve", dirty=False)
    assert plugin.is_preview
