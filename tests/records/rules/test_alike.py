"""Families that rules take together: only those that no rule could tell apart, and a finding is told of each of them."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.content_rules import load_checked
from generator.records.build import build_all
from generator.records.read import read
from generator.records.rules import Book

SOUND = Path(__file__).parents[1] / "sound"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """The sound records, with a second family of the same build."""
    folder = Path(shutil.copytree(SOUND, tmp_path / "content"))
    first = folder / "families" / "testa-1.yaml"
    (folder / "families" / "testa-2.yaml").write_text(first.read_text().replace("Testa 1", "Testa 2"))
    shutil.copy(folder / "fasteners" / "testa-1.yaml", folder / "fasteners" / "testa-2.yaml")
    return folder


def groups(content: Path) -> list[list[str]]:
    found = read([content])
    return [[family.id for family, _ in group] for group in Book(found, build_all(found)).alike]


def test_families_of_the_same_build_are_one_group(content: Path) -> None:
    assert groups(content) == [["testa-1", "testa-2"]]


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("zigzag: false", "zigzag: true"),
        ("without: [hook-felt]", "without: []"),
        ("off: {minutes: 9}", "off: {position: upright}"),
        ("off: {minutes: 9}", "behind: [plate]"),
        ("  - bench-motor\n", ""),
    ],
)
def test_one_that_a_rule_could_tell_apart_stands_alone(content: Path, was: str, now: str) -> None:
    path = content / "families" / "testa-2.yaml"
    text = path.read_text()
    assert was in text
    path.write_text(text.replace(was, now))
    assert groups(content) == [["testa-1"], ["testa-2"]]


def test_what_is_wrong_on_all_of_a_group_is_told_of_each(content: Path) -> None:
    path = content / "checks" / "watch-hook.yaml"
    lines = [line if not line.startswith("how:") else "how: Unplug, needle out. Turn." for line in path.read_text().splitlines()]
    path.write_text("\n".join(lines) + "\n")
    told = [f.message for f in load_checked([content])[1] if f.rule == "check-reaches-what-it-opens"]
    assert [("Testa 1" in message, "Testa 2" in message) for message in told] == [(True, False), (False, True)]
