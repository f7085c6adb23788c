"""A page at a former address leads on: to the page of now, and to the part of it that the link named."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

import generator
from generator.pages.moved import moved_files
from tests.building import bench, two_families

SCRIPT = "js/frame/moved.js"
THERE = {"bench/full/skips.html": "Skips"}


@pytest.fixture
def folder(tmp_path) -> Path:
    """A site of one page, and one that leads to it."""
    records = two_families()
    full = replace(records.families["full"], was=("whole",))
    asked = bench(replace(records, families={**records.families, "full": full}))
    pages = {"bench/full/skips.html": "<h1>Skips</h1>", **dict(moved_files(asked, ["bench/whole/skips.html"], THERE))}
    for address, text in pages.items():
        (tmp_path / address).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / address).write_text(text, encoding="utf-8")
    (tmp_path / "assets/handwheel/js/frame").mkdir(parents=True)
    shutil.copy(Path(generator.__file__).parent / "assets" / SCRIPT, tmp_path / "assets/handwheel" / SCRIPT)
    return tmp_path


@pytest.mark.parametrize(("scripts", "asked", "reached"), [(True, "#step-2", "#step-2"), (True, "", ""), (False, "", "")])
def test_it_leads_to_the_page_of_now_and_with_scripts_to_its_part(browser, folder, scripts, asked, reached):
    context = browser.new_context(offline=True, java_script_enabled=scripts)
    tab = context.new_page()
    refused: list[str] = []
    tab.on("console", lambda said: refused.append(said.text))
    tab.goto((folder / "bench/whole/skips.html").as_uri() + asked, wait_until="commit")
    tab.wait_for_url((folder / "bench/full/skips.html").as_uri() + reached)
    assert refused == []
    context.close()
