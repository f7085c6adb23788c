"""What is published is whole, whatever ends the build that would replace it."""

from __future__ import annotations

import random
import resource
import shutil
import subprocess
import sys
import time
from pathlib import Path
from threading import Event, Thread

import pytest

from generator import swapped_in
from generator.swapped_in import NewFolder, can_be_swapped
from generator.whole_files import put, put_new

FILES = 40
BUILDS = f"""
import sys
from itertools import count
from pathlib import Path
from generator.swapped_in import NewFolder
for number in count():
    new = NewFolder(Path(sys.argv[1]))
    for file in range({FILES}):
        (new.folder / str(file)).write_text(f"{{sys.argv[2]}}-{{number}}")
    new.swap_in()
    print("swapped in", flush=True)
"""


def editions(place: Path) -> set[str]:
    return {p.read_text() for p in place.iterdir() if not p.name.startswith(".")}


def begin(place: Path, name: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen([sys.executable, "-c", BUILDS, str(place), name], stdout=subprocess.PIPE)


def test_builds_killed_at_any_moment_two_at_once_leave_one_whole_edition(tmp_path: Path) -> None:
    place, chance = tmp_path / "site", random.Random(5)
    place.mkdir()
    for file in range(FILES):
        (place / str(file)).write_text("first")
    (place / ".owner").write_text("kept")
    for round_ in range(6):
        builds = [begin(place, f"{round_}-{n}") for n in range(2)]
        for build in builds:
            assert build.stdout and build.stdout.readline()
        time.sleep(chance.uniform(0, 0.03))  # any moment will do
        for build in builds:
            build.kill()
            build.communicate()
        assert len(editions(place)) == 1 and len(list(place.iterdir())) == FILES + 1
    assert editions(place) != {"first"}
    assert (place / ".owner").read_text() == "kept"
    NewFolder(place).swap_in()
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_second_build_waits_until_the_first_has_carried_the_hidden_files(tmp_path: Path, monkeypatch) -> None:
    place, copy, second_is_in = tmp_path / "site", shutil.copy2, Event()
    place.mkdir()
    (place / ".owner").write_text("kept")
    first, second = NewFolder(place), NewFolder(place)

    def in_no_hurry(*names: Path, **ways: bool) -> None:
        monkeypatch.setattr(shutil, "copy2", copy)
        other.start()
        assert not second_is_in.wait(0.5), "the folder was exchanged while its hidden files were read"
        copy(*names, **ways)

    def swap_in_second() -> None:
        second.swap_in()
        second_is_in.set()

    other = Thread(target=swap_in_second)
    monkeypatch.setattr(shutil, "copy2", in_no_hurry)
    first.swap_in()
    other.join()
    assert second_is_in.is_set() and (place / ".owner").read_text() == "kept"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_disk_that_fills_up_while_hidden_files_are_carried_leaves_what_stood(tmp_path: Path) -> None:
    place = tmp_path / "site"
    place.mkdir()
    (place / "page").write_text("one")
    (place / ".owner").write_bytes(b"kept" * 1000)
    new = NewFolder(place)
    (new.folder / "page").write_text("two")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))  # no larger file can be written, as on a full disk
    try:
        with pytest.raises(OSError, match="too large"):
            new.swap_in()
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert editions(place) == {"one"} and (place / ".owner").read_bytes() == b"kept" * 1000
    new.drop()
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_where_folders_cannot_be_exchanged_what_stood_aside_is_put_back(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(swapped_in.ctypes, "CDLL", lambda _: object())
    place = tmp_path / "site"
    for edition in ("one", "two"):
        new = NewFolder(place)
        (new.folder / "page").write_text(edition)
        new.swap_in()
        assert editions(place) == {edition}
    place.rename(tmp_path / ".site.0000.part.old.part")  # as a build that was killed between its two renames leaves it
    NewFolder(place).drop()
    assert editions(place) == {"two"}


def test_a_folder_that_another_build_takes_for_left_over_is_begun_again(tmp_path: Path, monkeypatch) -> None:
    locked, taken = swapped_in._locked, []

    def first_taken(folder: Path) -> int | None:
        if taken:
            return locked(folder)
        taken.append(folder)
        folder.rmdir()
        return None

    monkeypatch.setattr(swapped_in, "_locked", first_taken)
    new = NewFolder(tmp_path / "site")
    assert new.folder.is_dir() and new.folder not in taken
    assert locked(new.folder) is None, "nobody else may take it"
    new.drop()
    assert list(tmp_path.iterdir()) == []


def test_a_folder_given_up_leaves_nothing(tmp_path: Path) -> None:
    new = NewFolder(tmp_path / "site")
    new.drop()
    assert list(tmp_path.iterdir()) == []
    assert can_be_swapped(tmp_path / "site") and not can_be_swapped(Path("/"))


def test_a_file_is_put_whole_with_the_rights_that_it_had(tmp_path: Path, monkeypatch) -> None:
    path = tmp_path / "record.yaml"
    put_new(path, b"one")
    path.chmod(0o640)
    put(path, b"two")
    assert (path.read_bytes(), path.stat().st_mode & 0o777) == (b"two", 0o640)
    with pytest.raises(FileExistsError):
        put_new(path, b"three")
    with monkeypatch.context() as patch, pytest.raises(OSError, match="full"):
        patch.setattr(Path, "replace", lambda *_: (_ for _ in ()).throw(OSError(28, "full")))
        put(path, b"three")
    assert (path.read_bytes(), [p.name for p in tmp_path.iterdir()]) == (b"two", ["record.yaml"])


def test_a_hidden_folder_of_the_owner_is_carried_and_what_the_new_edition_brings_of_that_name_stands(tmp_path: Path) -> None:
    place = tmp_path / "site"
    (place / ".git").mkdir(parents=True)
    (place / ".git" / "head").write_text("kept")
    (place / ".mark").write_text("old")
    (place / ".link").symlink_to("nowhere")
    new = NewFolder(place)
    (new.folder / ".mark").write_text("new")
    new.swap_in()
    assert ((place / ".git" / "head").read_text(), (place / ".mark").read_text()) == ("kept", "new")
    assert (place / ".link").is_symlink()


def test_where_the_system_has_no_locks_a_site_is_swapped_in_and_nothing_else_is_taken_away(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.setattr(swapped_in, "fcntl", None)
    place, left = tmp_path / "site", tmp_path / ".site.00000000.part"
    left.mkdir()
    for edition in ("one", "two"):
        new = NewFolder(place)
        (new.folder / "page").write_text(edition)
        new.swap_in()
        assert editions(place) == {edition}
    assert {p.name for p in tmp_path.iterdir()} == {"site", left.name}
