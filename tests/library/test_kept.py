"""What is kept between runs comes back as it was, and a file that anyone could have put there can do no harm."""

from __future__ import annotations

import json
import os
import pickle
import shutil
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from generator import content_rules
from generator.bench.diagnosed import Diagnosed
from generator.content_rules import load_checked
from generator.kept import Kept
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
    honest = content_rules.load_checked
    monkeypatch.setattr(content_rules, "load_checked", lambda f: seen.append(f) or honest(f))
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
    (path,) = (tmp_path / "cache").iterdir()
    bad = pickle.dumps(Harm(tmp_path / "harm"))
    for place in (path, path.with_suffix(".pickle"), path.with_name(path.name.removeprefix("records-")).with_suffix(".pickle")):
        place.write_bytes(bad)
    assert load_kept([content], tmp_path / "cache") == whole
    assert not (tmp_path / "harm").exists()
    assert json.loads(path.read_bytes())["value"]


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
    assert len(list((tmp_path / "cache").iterdir())) == MOST


def test_a_folder_that_leads_elsewhere_is_left_alone(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "cache").symlink_to(elsewhere)
    kept = Kept(tmp_path / "cache", "gear", Gear, 0)
    assert kept.write("a" * 40, Gear(12)) == Gear(12)
    kept.prune()
    assert list(elsewhere.iterdir()) == []
