"""Finished walks: kept on the device, looked over, and counted by `tally` with no typing."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path
from urllib.parse import unquote

import pytest
from click.testing import CliRunner
from playwright.sync_api import expect

from generator.commands.tally import tally
from generator.content_rules import load_checked

SOUND = Path(__file__).parents[1] / "records" / "sound"


@pytest.fixture
def tab(browser):
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    opened, faults = context.new_page(), []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    assert faults == []
    context.close()


def walk(tab, site, symptom: str) -> None:
    """Walks a complaint to a cure, always by the first answer."""
    tab.goto((site / "bench" / "testa-1" / f"{symptom}.html").as_uri())
    if not tab.locator("#walk .hw-walk").is_visible():  # a walk that was left open opens by itself
        tab.locator("#walk-start").click()
    for _ in range(20):
        if tab.locator("#walk .hw-walk-end").count():
            return
        cure = tab.locator("#walk [data-cured=yes]")
        (cure if cure.count() else tab.locator("#walk [data-outcome]").first).press("Enter")
    raise AssertionError("no end after twenty answers")


def saved(tab) -> str:
    return unquote(tab.locator("#finished-save").get_attribute("href").partition(",")[2])


def test_a_walk_that_ends_in_a_cure_stands_in_a_table_that_tally_counts(tab, sound_site, tmp_path, monkeypatch):
    walk(tab, sound_site, "skipped-stitches")
    cause = tab.locator("#walk h3").first.inner_text()
    tab.goto((sound_site / "on-this-device.html").as_uri())
    row = tab.locator("#finished-rows tr")
    expect(row).to_have_count(1)
    expect(row).to_contain_text("Skips stitches")
    row.locator("input").fill("42")
    row.locator("input").press("Tab")
    (job,) = csv.DictReader(io.StringIO(saved(tab)))
    assert (job["family"], job["complaint"], job["checks done"], job["minutes"]) == ("testa-1", "skipped-stitches", "watch-hook", "42")
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    Path("finished-walks.csv").write_bytes(saved(tab).encode())
    done = CliRunner().invoke(tally, ["finished-walks.csv", "--shop", "The Yard"])
    assert done.exit_code == 0, done.output
    records, findings = load_checked([Path("content")])
    assert [f for f in findings if f.level == "error"] == []
    (made,) = [t for t in records.tallies.values() if t.shop == "The Yard"]
    modes = {f.title for f in records.failure_modes.values() if f.id == job["cause"]}
    assert made.machines == 1 and any(title in cause for title in modes)


def test_going_back_takes_the_job_away_and_a_new_walk_adds_another(tab, sound_site):
    jobs = "handwheel.device.read('finished', []).filter((job) => job.date).length"
    walk(tab, sound_site, "skipped-stitches")
    assert tab.evaluate(jobs) == 1
    tab.get_by_role("button", name="Back").press("Enter")
    assert tab.evaluate(jobs) == 0
    tab.get_by_role("button", name="Undo").press("Enter")
    assert tab.evaluate(jobs) == 1
    tab.get_by_role("button", name="Start again").press("Enter")
    walk(tab, sound_site, "skipped-stitches")
    assert tab.evaluate(jobs) == 2
    tab.goto((sound_site / "on-this-device.html").as_uri())
    tab.get_by_role("button", name="Take out").first.click()
    expect(tab.locator("#finished-rows tr")).to_have_count(1)
    tab.get_by_role("button", name="Forget: Finished walks").click()
    expect(tab.locator("#finished-none")).to_be_visible()
