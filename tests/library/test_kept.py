"""What is kept between runs comes back as it was, and a file that anyone could have put there can do no harm."""

from __future__ import annotations

import json
import os
import pickle
import re
import resource
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

import pytest

from generator import checked
from generator.bench.diagnosed import Diagnosed
from generator.content_rules import load_checked
from generator.kept import Kept
from generator.records import load
from generator.records.model import Records
from generator.store import MOST, load_kept
from generator.typed_json import from_json, to_json
from tests.building import bench

ROOT = Path(__file__).parents[2]
SOUND = ROOT / "tests" / "records" / "sound"


def through_text(shape: type, value):
    return from_json(shape, json.loads(json.dumps(to_json(shape, value))))


def test_all_records_come_back_from_json_as_they_were() -> None:
    records = replace(load_checked([ROOT / "content"])[0], places={})
    assert through_text(Records, records) == records


def test_an_order_of_checks_comes_back_from_json_as_it_was() -> None:
    asked = bench()
    for complaint in asked.complaints():
        found = asked.diagnosed(complaint)
        assert through_text(Diagnosed, found) == found


@dataclass(frozen=True)
class Gear:
    teeth: int
    names: tuple[str, ...] = ()
    inside: Gear | Shaft | None = None


@dataclass(frozen=True)
class Shaft:
    length: float


@pytest.mark.parametrize(
    "data",
    [
        {},
        [],
        None,
        "x",
        {"teeth": "12"},
        {"teeth": True},
        {"teeth": 12.0},
        {"teeth": 12, "more": 1},
        {"teeth": 12, "names": "ab"},
        {"teeth": 12, "names": [1]},
        {"teeth": 12, "names": {"a": 1}},
        {"teeth": 12, "inside": {"length": 2}},
        {"teeth": 12, "inside": {"is": "Path", "length": 2}},
        {"teeth": 12, "inside": {"is": "Shaft", "length": None}},
    ],
)
def test_data_of_another_shape_is_refused(data) -> None:
    with pytest.raises((ValueError, KeyError, TypeError)):
        from_json(Gear, data)


def test_alternatives_are_told_apart() -> None:
    for inside in (None, Gear(3), Shaft(2.5)):
        assert through_text(Gear, Gear(12, ("a",), inside)) == Gear(12, ("a",), inside)


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return shutil.copytree(SOUND, tmp_path / "content")


def reads(monkeypatch: pytest.MonkeyPatch) -> list:
    """Grows by one whenever the records themselves are read."""
    seen: list = []
    honest = load.open_book
    monkeypatch.setattr(load, "open_book", lambda folders, known: seen.append(folders) or honest(folders, known))
    return seen


def test_records_are_read_once_and_again_when_a_file_changes(content: Path, tmp_path: Path, monkeypatch) -> None:
    seen = reads(monkeypatch)
    first = load_kept([content], tmp_path / "cache")
    assert load_kept([content], tmp_path / "cache") == first
    assert len(seen) == 1
    with (content / "shop.yaml").open("a") as file:
        file.write("# another line\n")
    assert load_kept([content], tmp_path / "cache") == first
    assert len(seen) == 2


class Harm:
    """Makes a folder when it is unpickled."""

    def __init__(self, path: Path) -> None:
        self.path = str(path)

    def __reduce__(self):
        return os.mkdir, (self.path,)


def test_a_file_that_holds_code_is_never_run(content: Path, tmp_path: Path) -> None:
    whole = load_kept([content], tmp_path / "cache")
    paths = list((tmp_path / "cache").iterdir())
    bad = pickle.dumps(Harm(tmp_path / "harm"))
    for path in paths:
        older = path.with_name(path.name.partition("-")[2])
        for place in (path, path.with_suffix(".pickle"), older.with_suffix(".pickle")):
            place.write_bytes(bad)
    assert load_kept([content], tmp_path / "cache") == whole
    assert not (tmp_path / "harm").exists()
    assert len(paths) == 3 and all(json.loads(path.read_bytes())["value"] for path in paths)


def test_a_record_kept_as_no_data_is_read_anew(content: Path, tmp_path: Path) -> None:
    whole = load_kept([content], tmp_path / "cache")
    (path,) = (tmp_path / "cache").glob("files-*")
    held = json.loads(path.read_bytes())
    held["value"]["files"] = dict.fromkeys(held["value"]["files"], "{torn")
    path.write_text(json.dumps(held))
    for kept in (tmp_path / "cache").glob("records-*"):
        kept.unlink()
    assert load_kept([content], tmp_path / "cache") == whole


def test_a_file_under_another_name_than_its_own_is_not_believed(tmp_path: Path) -> None:
    kept = Kept(tmp_path, "gear", Gear, 9)
    kept.write("a" * 40, Gear(12))
    (tmp_path / f"gear-{'a' * 40}.json").rename(tmp_path / f"gear-{'b' * 40}.json")
    assert kept.read("b" * 40) is None


def test_the_files_used_last_stay_and_nothing_strange_is_touched(tmp_path: Path) -> None:
    kept = Kept(tmp_path, "gear", Gear, 2)
    for number, letter in enumerate("abcd"):
        kept.write(letter * 40, Gear(number))
        os.utime(tmp_path / f"gear-{letter * 40}.json", (number, number))
    (tmp_path / f"{'e' * 40}.pickle").write_text("of an earlier version")
    for strange in ("notes.txt", "gear-mine.json", f"other-{'a' * 40}.json"):
        (tmp_path / strange).write_text("{}")
    assert kept.read("a" * 40) == Gear(0)
    kept.prune()
    left = {path.name for path in tmp_path.iterdir()}
    assert left == {f"gear-{'a' * 40}.json", f"gear-{'d' * 40}.json", "notes.txt", "gear-mine.json", f"other-{'a' * 40}.json"}


def test_edits_do_not_fill_the_folder(content: Path, tmp_path: Path) -> None:
    for number in range(MOST + 3):
        (content / "shop.yaml").write_text(f'currency: "€"\nlabour_rate: {number + 1}\n')
        load_kept([content], tmp_path / "cache")
    assert len(list((tmp_path / "cache").glob("records-*"))) == MOST
    assert len(list((tmp_path / "cache").glob("files-*"))) == 1


def test_a_folder_that_leads_elsewhere_is_left_alone(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "cache").symlink_to(elsewhere)
    kept = Kept(tmp_path / "cache", "gear", Gear, 0)
    assert kept.write("a" * 40, Gear(12)) == Gear(12)
    kept.prune()
    assert list(elsewhere.iterdir()) == []


@contextmanager
def a_disk_that_takes_no_file_larger_than(most: int) -> Iterator[None]:
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


def test_on_a_full_disk_the_value_comes_back_what_was_kept_stands_and_no_torn_file_is_left(tmp_path: Path) -> None:
    kept, large = Kept(tmp_path, "gear", Gear, 9), Gear(12, ("tooth",) * 1000)
    kept.write("a" * 40, Gear(3))
    with a_disk_that_takes_no_file_larger_than(1000):
        assert kept.write("a" * 40, large) == large
        assert kept.write("b" * 40, large) == large
    assert (kept.read("a" * 40), kept.has("b" * 40)) == (Gear(3), False)
    assert [path.name for path in tmp_path.iterdir()] == [f"gear-{'a' * 40}.json"]
    kept.write("a" * 40, large)
    assert kept.read("a" * 40) == large


def test_where_the_folder_cannot_be_there_nothing_is_kept_and_nothing_breaks(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    kept = Kept(tmp_path / "file" / "cache", "gear", Gear, 0)
    assert kept.write("a" * 40, Gear(12)) == Gear(12)
    assert (kept.read("a" * 40), kept.has("a" * 40)) == (None, False)
    kept.prune()
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_what_a_killed_writer_left_goes_and_what_is_being_written_stays(tmp_path: Path) -> None:
    names = [f".gear-{'a' * 40}.json.0123abcd.part", "tmpab_9z81x.part"]
    for name in (*names, "mine.part"):
        (tmp_path / name).write_text("{")
    kept = Kept(tmp_path, "gear", Gear, 2)
    kept.prune()
    assert {path.name for path in tmp_path.iterdir()} == {*names, "mine.part"}
    yesterday = time.time() - 86_400
    for path in tmp_path.iterdir():
        os.utime(path, (yesterday, yesterday))
    kept.prune()
    assert [path.name for path in tmp_path.iterdir()] == ["mine.part"]


def test_a_file_too_large_to_be_ours_is_not_read(tmp_path: Path, monkeypatch) -> None:
    kept = Kept(tmp_path, "gear", Gear, 2)
    kept.write("a" * 40, Gear(12))
    size = (tmp_path / f"gear-{'a' * 40}.json").stat().st_size
    for largest, found in ((size, Gear(12)), (size - 1, None)):
        monkeypatch.setattr("generator.kept._LARGEST", largest)
        assert kept.read("a" * 40) == found


WRITES = """
import sys
from pathlib import Path
from generator.kept import Kept
kept = Kept(Path(sys.argv[1]), "list", tuple[str, ...], 99)
for number in range(100):
    kept.write("a" * 40, (sys.argv[2],) * 5000)
    kept.prune()
    if not number:
        print("begun", flush=True)
"""


def test_two_builds_at_once_keep_one_value_or_the_other_whole(tmp_path: Path) -> None:
    builds = [subprocess.Popen([sys.executable, "-c", WRITES, str(tmp_path), name], cwd=ROOT, stdout=subprocess.PIPE) for name in ("one", "two")]
    for build in builds:
        assert build.stdout and build.stdout.readline()
    kept: Kept = Kept(tmp_path, "list", tuple[str, ...], 99)
    seen = set()
    while any(build.poll() is None for build in builds):
        seen.add(kept.read("a" * 40))
    assert [build.wait() for build in builds] == [0, 0]
    assert seen and seen <= {("one",) * 5000, ("two",) * 5000}
    assert [path.name for path in tmp_path.iterdir()] == [f"list-{'a' * 40}.json"]


@pytest.mark.parametrize(("shape", "data"), [(Literal["on", "off"], "maybe"), (Mapping[str, int], [1]), (Mapping[str, int], {"a": "b"}), (tuple[int, ...], "12")])
def test_words_mappings_and_lists_of_another_shape_are_refused(shape: type, data) -> None:
    with pytest.raises(ValueError):
        from_json(shape, data)


def test_what_cannot_be_kept_is_said() -> None:
    with pytest.raises(TypeError, match="cannot be kept"):
        from_json(set, [1])


def test_what_is_kept_rests_on_all_code_that_reads_and_checks() -> None:
    """Also on what that code takes from beside its folders."""
    there = {Path(path) for path in checked.files_in(checked.code())}
    top = Path(checked.__file__).parent
    modules = [path for path in there if path.suffix == ".py"]
    names = {name for path in modules for name in re.findall(r"(?m)^\s*from generator\.(\w+)", path.read_text(encoding="utf-8"))}
    beside = {top / f"{name}.py" for name in names if (top / f"{name}.py").is_file()}
    assert top / "graph.py" in beside and beside <= there
