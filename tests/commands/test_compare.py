"""`compare` as a reviewer asks it."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from generator.commands.compare import compare
from tests.commands.asking import asked, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")


def _commit(*words: str) -> None:
    who = ("-c", "user.name=A", "-c", "user.email=a@example.org")
    subprocess.run(["git", *who, *words], check=True, capture_output=True)


def test_compare_tells_a_reviewer_what_came_and_which_orders_moved() -> None:
    for words in (("init",), ("add", "."), ("commit", "-m", "sound")):
        _commit(*words)
    path = Path("content/failure-modes/gear-cracked.yaml")
    path.write_text(path.read_text(encoding="utf-8").replace("seen: 20", "seen: 900"), encoding="utf-8")
    told = asked(compare, "HEAD")
    assert {"added", "changed", "order_changes"} <= set(told)
    assert [record["id"] for record in told["changed"]] == ["gear-cracked"]


def test_compare_takes_no_option_for_a_revision() -> None:
    result = run(compare, "--", "--output=taken.tar")
    assert result.exit_code == 1
    assert "no revision" in result.output
    assert not Path("taken.tar").exists()
