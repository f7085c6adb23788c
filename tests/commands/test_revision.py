"""The records as they stood at a revision: the files that differ laid over today's, else all of them read."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import click
import pytest

from generator.commands import revision
from generator.commands.revision import records_at
from generator.content_rules import load_checked
from generator.records.model import Records, Shop

pytestmark = pytest.mark.usefixtures("in_sound_folder")
CONTENT = Path("content")
WHO = ("-c", "user.name=A", "-c", "user.email=a@example.org")


@pytest.fixture(autouse=True)
def committed(in_sound_folder: None) -> Records:
    """The sound records, which git has as they are."""
    git("init", "-q")
    _commit()
    return _now()


@pytest.fixture
def whole_read(monkeypatch: pytest.MonkeyPatch) -> list[list[Path]]:
    """The folders of each time that all records of a revision were read."""
    read: list[list[Path]] = []

    def load(folders: list[Path]) -> object:
        read.append(folders)
        return load_checked(folders)

    monkeypatch.setattr(revision, "load_checked", load)
    return read


def git(*words: str) -> None:
    subprocess.run(["git", *WHO, *words], check=True, capture_output=True)


def _commit() -> None:
    git("add", ".")
    git("commit", "-q", "-m", "as it stands")


def _now() -> Records:
    records, findings = load_checked([CONTENT])
    assert not findings
    return replace(records, places={})


def _write(place: str, old: str, new: str) -> None:
    text = (CONTENT / place).read_text(encoding="utf-8")
    assert old in text
    (CONTENT / place).write_text(text.replace(old, new), encoding="utf-8")


def _apart(records: Records) -> Records:
    """But for where values stand, which nothing compares."""
    return replace(records, places={}, own={}, pictures={})


def _edit_a_record() -> None:
    _write("failure-modes/timing-off.yaml", "seen: 12", "seen: 600")


def _edit_a_list() -> None:
    _write("tools.yaml", "Screwdriver", "Driver")


def _edit_the_shop() -> None:
    _write("shop.yaml", "labour_rate: ", "labour_rate: 1")


def _add_a_record() -> None:
    mode = (CONTENT / "failure-modes/timing-off.yaml").read_text(encoding="utf-8")
    (CONTENT / "failure-modes/another.yaml").write_text(mode, encoding="utf-8")


def _take_a_record() -> None:
    (CONTENT / "bench/yard-2025.yaml").unlink()


def _take_the_shop() -> None:
    (CONTENT / "shop.yaml").unlink()


EDITS = [_edit_a_record, _edit_a_list, _edit_the_shop, _add_a_record, _take_a_record, _take_the_shop]


@pytest.mark.parametrize("edit", [lambda: None, *EDITS], ids=["none", *(e.__name__.strip("_") for e in EDITS)])
def test_what_differs_is_laid_over_what_is_the_same(edit: Callable[[], None], committed: Records, whole_read: list[list[Path]]) -> None:
    edit()
    now = load_checked([CONTENT])[0]
    assert (_apart(now) != _apart(committed)) == (edit in EDITS)
    assert _apart(records_at("HEAD", [CONTENT], now)) == _apart(committed)
    assert whole_read == []


def test_records_of_one_kind_that_differ_are_all_laid_over_in_the_order_of_their_ids(committed: Records, whole_read: list[list[Path]]) -> None:
    for name in ("gear-cracked", "timing-off"):
        (CONTENT / "failure-modes" / f"{name}.yaml").unlink()
    _add_a_record_in(CONTENT / "failure-modes" / "a-new-one.yaml")
    then = records_at("HEAD", [CONTENT], load_checked([CONTENT])[0])
    assert list(then.failure_modes) == sorted(committed.failure_modes)
    assert _apart(then) == _apart(committed) and whole_read == []


def _add_a_record_in(path: Path) -> None:
    path.write_text((CONTENT / "failure-modes/needle-worn.yaml").read_text(encoding="utf-8"), encoding="utf-8")


def test_a_shop_that_had_no_settings_yet_had_those_of_every_shop(committed: Records) -> None:
    settings = (CONTENT / "shop.yaml").read_text(encoding="utf-8")
    (CONTENT / "shop.yaml").unlink()
    _commit()
    (CONTENT / "shop.yaml").write_text(settings, encoding="utf-8")
    assert records_at("HEAD", [CONTENT], committed).shop == Shop() != committed.shop


def test_an_older_revision_is_told_by_its_name(committed: Records) -> None:
    _edit_a_record()
    _commit()
    later = _now()
    assert _apart(records_at("HEAD~1", [CONTENT], later)) == _apart(committed)
    assert _apart(records_at("HEAD", [CONTENT], later)) == _apart(later)


def test_sixty_files_that_differ_are_few_and_one_more_is_many(committed: Records, whole_read: list[list[Path]]) -> None:
    notes = CONTENT / "notes"
    notes.mkdir()
    for number in range(60):
        (notes / f"{number}.yaml").write_text("ours: 1\n", encoding="utf-8")
    _apart(records_at("HEAD", [CONTENT], committed))
    assert whole_read == []
    (notes / "last.yaml").write_text("ours: 1\n", encoding="utf-8")
    assert _apart(records_at("HEAD", [CONTENT], committed)) == _apart(committed)
    assert len(whole_read) == 1


def test_a_folder_of_which_the_revision_has_no_records_is_read_as_it_was(committed: Records, whole_read: list[list[Path]]) -> None:
    """Empty, but for a file that is no record: nothing of today is taken for a record of then."""
    for path in sorted(CONTENT.rglob("*.yaml")):
        path.unlink()
    _commit()
    assert records_at("HEAD", [CONTENT], committed).families == {}
    assert len(whole_read) == 1


def test_folders_laid_over_one_another_are_read_whole_each_as_it_was(committed: Records, whole_read: list[list[Path]]) -> None:
    own = Path("own")
    (own / "checks").mkdir(parents=True)
    (own / "checks" / "watch-hook.yaml").write_text("minutes: 9\n", encoding="utf-8")
    _commit()
    (own / "checks" / "watch-hook.yaml").write_text("minutes: 11\n", encoding="utf-8")
    then = records_at("HEAD", [CONTENT, own], committed)
    assert then.checks["watch-hook"].minutes == 9
    assert _apart(replace(then, checks=committed.checks)) == _apart(committed)
    ((first, second),) = whole_read
    assert first.name != second.name


def test_names_that_git_writes_in_its_own_way_are_the_same_in_both(committed: Records, whole_read: list[list[Path]]) -> None:
    """A letter beyond ASCII and a tab; a line's end, which git cannot be asked for, differs and is no record."""
    for name in (".é.yaml", ".a\tb.yaml", ".a\nb.yaml"):
        (CONTENT / name).write_text("ours: 1\n", encoding="utf-8")
    _commit()
    assert revision._differing(revision._prints_at("HEAD", CONTENT), revision._prints_now("HEAD", CONTENT)) == [".a\nb.yaml"]
    assert _apart(records_at("HEAD", [CONTENT], committed)) == _apart(committed)
    assert whole_read == []


def test_only_files_named_as_records_are_looked_at() -> None:
    (CONTENT / "checks" / "read.me").write_text("ours\n", encoding="utf-8")
    (CONTENT / "folder.yaml").mkdir()
    prints = revision._prints_at("HEAD", CONTENT)
    assert {"shop.yaml", "checks/watch-hook.yaml"} < prints.keys() and "guides/oil.md" not in prints
    assert revision._prints_now("HEAD", CONTENT) == prints


def test_content_below_the_folder_of_the_repository_is_found_by_its_own_names(tmp_path: Path, committed: Records, whole_read: list[list[Path]]) -> None:
    deeper = tmp_path / "book" / "content"
    deeper.parent.mkdir()
    CONTENT.rename(deeper)
    _commit()
    (deeper / "tools.yaml").write_text((deeper / "tools.yaml").read_text(encoding="utf-8").replace("Screwdriver", "Driver"), encoding="utf-8")
    assert _apart(records_at("HEAD", [deeper], load_checked([deeper])[0])) == _apart(committed)
    assert whole_read == []


@pytest.mark.parametrize(
    ("rev", "says"),
    [
        ("--output=taken.zip", "'--output=taken.zip' is no revision: a revision does not begin with '-'."),
        ("nowhere", "git cannot give content at 'nowhere': fatal: Not a valid object name nowhere."),
    ],
)
def test_what_is_no_revision_is_refused_in_a_line(rev: str, says: str, committed: Records) -> None:
    with pytest.raises(click.exceptions.ClickException) as refused:
        records_at(rev, [CONTENT], committed)
    assert refused.value.format_message() == says


@pytest.mark.parametrize("few", [60, 0])
def test_a_revision_with_errors_is_refused(few: int, committed: Records, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(revision, "_FEW", few)
    _write("tools.yaml", "title: Screwdriver", "titel: Screwdriver")
    _commit()
    _write("tools.yaml", "titel: Screwdriver", "title: Screwdriver")
    with pytest.raises(click.ClickException, match="The records at HEAD have 2 errors, so there is nothing sound to compare with."):
        records_at("HEAD", [CONTENT], committed)


def test_a_revision_with_a_warning_is_sound(committed: Records, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(revision, "_FEW", 0)
    spare = CONTENT / "assemblies" / "spare.yaml"
    spare.write_text("title: In no family\n", encoding="utf-8")
    assert [f.level for f in load_checked([CONTENT])[1]] == ["warning"]
    _commit()
    spare.unlink()
    assert "spare" in records_at("HEAD", [CONTENT], committed).assemblies
