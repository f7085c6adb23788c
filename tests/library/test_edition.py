"""Which book this is: the same for the same records, and told by git and the changelog where they are there."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest

from generator.edition import Release, edition_of

CHANGES = "# Changes\n\n## 0.2.0, edition 2026.12\n\n### Records\n\n- A lamp that\n  flickers.\n- A belt.\n\n### Code\n\n- Faster.\n\n## 0.1.0\n\nFirst.\n"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "shop.yaml").write_text("labour_rate: 40\n")
    return folder


def test_the_fingerprint_is_of_what_the_records_say_and_of_nothing_else(content: Path, tmp_path: Path) -> None:
    before = edition_of([content])
    os.utime(content / "shop.yaml", (1, 1))
    (content / ".shop.yaml.swp").write_text("an editor's")
    assert edition_of([content]) == before
    (content / "shop.yaml").write_text("labour_rate: 41\n")
    assert edition_of([content]).fingerprint != before.fingerprint
    assert (before.commit, before.date, before.changed, before.releases) == ("", "", False, ())


def test_a_commit_gives_the_day_and_what_it_does_not_hold_is_said(content: Path) -> None:
    when = {**os.environ, "GIT_COMMITTER_DATE": "2026-11-06T23:30:00+01:00", "GIT_CONFIG_GLOBAL": os.devnull}
    for words in (["init", "-q"], ["add", "."], ["-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "All"]):
        subprocess.run(["git", "-C", str(content), *words], check=True, env=when)
    edition = edition_of([content])
    assert (len(edition.commit), edition.date, edition.changed) == (12, "2026-11-06", False)
    (content / "tools.yaml").write_text("{}\n")
    assert edition_of([content]).changed


def test_the_changelog_beside_the_records_tells_what_each_edition_brought_to_them(content: Path) -> None:
    (content.parent / "CHANGELOG.md").write_text(CHANGES)
    assert edition_of([content]).releases == (
        Release("0.2.0, edition 2026.12", "2026-12", ("A lamp that flickers.", "A belt.")),
        Release("0.1.0", "", ()),
    )
