"""Files that were sound once: what is spared, and what makes them be looked at again."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator import checked, store
from generator.records import gather, read
from generator.records.load import load
from generator.records.sound_files import SoundFiles

SOUND = Path(__file__).parent / "sound"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SOUND, tmp_path / "content"))


@pytest.fixture
def looked_at(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the files that YAML or the schema was asked about: once for those that are seen at a glance to be sound."""
    names: list[str] = []
    glance, parse, faults = gather.at_a_glance, gather.parse, read._faults
    monkeypatch.setattr(gather, "at_a_glance", lambda kind, path, raw: (names.append(path.name), glance(kind, path, raw))[1])
    monkeypatch.setattr(gather, "parse", lambda raw, path: (names.append(path.name), parse(raw, path))[1])
    monkeypatch.setattr(read, "_faults", lambda kind, data, where, found: (names.append(kind.name), faults(kind, data, where, found))[1])
    return names


def test_only_the_file_that_changed_is_gone_through_again(content: Path, looked_at: list[str]) -> None:
    first = SoundFiles()
    load([content], known=first)
    assert len(looked_at) == len(list(content.rglob("*.yaml")))
    looked_at.clear()
    path = min((content / "checks").iterdir())
    path.write_text(path.read_text().replace("title: ", "title: New ", 1))
    second = SoundFiles(first.met)
    records, findings = load([content], known=second)
    assert looked_at == [path.name]
    assert records.checks[path.stem].title.startswith("New ") and not findings
    assert second.is_another and len(second.met) == len(first.met)


def test_a_place_is_found_where_it_stands_though_the_file_was_not_gone_through(content: Path, looked_at: list[str]) -> None:
    first = SoundFiles()
    plain, _ = load([content], known=first)
    looked_at.clear()
    records, _ = load([content], known=SoundFiles(first.met))
    assert not looked_at
    for kind, id in (("check", min(records.checks)), ("tool", max(records.tools))):
        assert records.position_of(kind, id, ("title",)) == plain.position_of(kind, id, ("title",))
        assert records.position_of(kind, id, ("title",), key=True) == plain.position_of(kind, id, ("title",), key=True)


def test_a_file_with_a_fault_is_told_of_each_time(content: Path) -> None:
    path = min((content / "checks").iterdir())
    path.write_text(path.read_text() + "nonsense: 1\n")
    first = SoundFiles()
    said = load([content], known=first)[1]
    assert said and load([content], known=SoundFiles(first.met))[1] == said


def test_the_same_words_under_another_kind_are_another_file(content: Path) -> None:
    first = SoundFiles()
    load([content], known=first)
    path = min((content / "checks").iterdir())
    shutil.copy(path, content / "symptoms" / path.name)
    assert any(f.path.parent.name == "symptoms" for f in load([content], known=SoundFiles(first.met))[1])


def test_what_is_kept_between_runs_is_let_go_when_the_code_that_reads_has_changed(
    content: Path, tmp_path: Path, looked_at: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    store.read_and_check([content], tmp_path / "cache")
    looked_at.clear()
    store.read_and_check([content], tmp_path / "cache")
    assert not looked_at
    monkeypatch.setattr(checked, "code", lambda: [content / "checks"])
    store.read_and_check([content], tmp_path / "cache")
    assert looked_at
