"""Loading as a whole: good records stay, faults do not spread, nothing raises."""

import shutil
from dataclasses import FrozenInstanceError
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.records.document import read_file
from generator.records.finding import Finding
from generator.records.load import load
from generator.records.model import (
    Figure,
    Records,
    Shop,
    TreeEvent,
    TreeGate,
    TreeTransfer,
)
from generator.records.node import plain
from generator.records.rules import Book, Rule

SOUND = Path(__file__).parent / "sound"
FILES = sorted(path.relative_to(SOUND) for path in SOUND.rglob("*.yaml"))


@pytest.fixture(scope="module")
def sound() -> Records:
    return load([SOUND])[0]


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SOUND, tmp_path / "content"))


def test_records_are_frozen(sound: Records) -> None:
    with pytest.raises(FrozenInstanceError):
        sound.families["testa-1"].title = "Other"  # type: ignore[misc]


def test_a_tree_becomes_gates_events_and_transfers(sound: Records) -> None:
    top = sound.symptoms["skipped-stitches"].tree
    missed, worn, see = top.inputs
    assert (top.kind, top.id, top.k) == ("any", None, 1)
    assert missed == TreeGate(
        "loop-missed",
        "The hook misses the loop",
        "any",
        (TreeEvent("gear-cracked"), TreeEvent("timing-off")),
        1,
    )
    assert isinstance(worn, TreeGate)
    assert (worn.kind, worn.k) == ("all", 2)
    assert see == TreeTransfer("nest-below/thread-free")


def test_a_vote_keeps_how_many_it_takes(sound: Records) -> None:
    tree = sound.symptoms["nest-below"].tree
    assert (tree.kind, tree.k, len(tree.inputs)) == ("at_least", 1, 2)


def test_short_forms_become_full_ones(sound: Records) -> None:
    family = sound.families["testa-1"]
    assert [use.use for use in family.assemblies] == ["covers", "hook-drive", "bench-motor"]
    assert family.assemblies[1].parts == {"hook-gear": {"off": {"minutes": 9}}}
    assert family.figures["hook_turns_per_stitch"] == Figure(2)
    assert family.figures["needle_bar_stroke"] == Figure("32 mm", "demo")
    assert sound.tallies["yard-2025"].period == "2025"


def test_parts_know_their_ids_and_moves_left_out_take_no_time(sound: Records) -> None:
    needle = sound.assemblies["covers"].parts["needle"]
    assert needle.id == "needle"
    assert needle.off.minutes == needle.on.minutes == 0


def test_without_a_shop_file_the_shop_has_defaults(tmp_path: Path) -> None:
    assert load([tmp_path])[0].shop == Shop()


def test_a_record_with_a_fault_is_left_out_and_the_rest_stays(copy: Path) -> None:
    (copy / "failure-modes" / "gear-cracked.yaml").write_text("title: T\n")
    (copy / "tools.yaml").write_text("driver: {title: Driver}\nawl: {}\n")
    records, findings = load([copy])
    assert set(records.failure_modes) == {"needle-worn", "timing-off"}
    assert set(records.tools) == {"driver"}
    assert len(records.symptoms) == 2
    assert {f.path.name for f in findings} == {"gear-cracked.yaml", "tools.yaml"}


@pytest.mark.parametrize("file", FILES, ids=str)
@pytest.mark.parametrize("fault", ["syntax", "not-utf-8", "not-a-file"])
def test_a_file_that_cannot_be_read_makes_one_finding_and_no_avalanche(copy: Path, file: Path, fault: str) -> None:
    broken = copy / file
    if fault == "not-a-file":
        broken.unlink()
        broken.mkdir()
    else:
        end = b"\n}\n" if fault == "syntax" else b"\n# \xff\n"
        broken.write_bytes(broken.read_bytes() + end)
    _, findings = load([copy])
    assert [f.path for f in findings] == [broken]


@pytest.mark.parametrize("file", FILES, ids=str)
def test_a_key_that_is_misspelt_makes_one_finding_and_no_avalanche(copy: Path, file: Path) -> None:
    broken = copy / file
    node = read_file(broken).node
    assert node is not None
    data: Any = plain(node)
    first = data[0] if isinstance(data, list) else data
    lists = file.parent == Path() and file.name != "shop.yaml"
    (next(iter(first.values())) if lists else first)["zzz"] = 1
    broken.write_text(yaml.safe_dump(data, sort_keys=False))
    _, findings = load([copy])
    assert [(f.path, f.message) for f in findings] == [(broken, "'zzz' is no key that can stand here.")]


def test_rules_of_a_higher_floor_can_be_added() -> None:
    def find(book: Book) -> list[Finding]:
        note = book.records.fasteners["testa-1"][1]
        at = book.records.position_of("fasteners", "testa-1", (1, "thread"))
        assert at is not None
        return [Finding(at.path, at.line, at.column, f"{note.thread} is odd.", "Look again.", "warning")]

    _, findings = load([SOUND], [Rule("odd-thread", "Threads are even.", "fasteners", find)])
    assert [(f.line, f.column, f.message) for f in findings] == [(2, 49, "10-32 is odd.")]


def test_findings_come_sorted_and_once(copy: Path) -> None:
    for file in FILES:
        (copy / file).write_text("- 1\n")
    _, findings = load([copy])
    assert list(findings) == sorted(set(findings))
    assert len({f.path for f in findings}) == len(FILES)


def test_nesting_as_deep_as_may_be_raises_nothing(copy: Path) -> None:
    tree = "[timing-off]"
    for _ in range(23):
        tree = f"[{{any: {tree}}}]"
    (copy / "symptoms" / "nest-below.yaml").write_text(f"title: N\nsaid_as: [n]\ntree: {{id: thread-free, any: {tree}}}\n")
    (copy / "checks" / "watch-hook.yaml").write_text(f"title: {'[' * 49}{']' * 49}\n")
    records, findings = load([copy])
    assert "nest-below" in records.symptoms
    assert {f.path.name for f in findings} == {"watch-hook.yaml"}


LEAVES = st.none() | st.booleans() | st.integers(-5, 5) | st.sampled_from(
    ["needle", "gear-cracked", "x y", "", "nest-below/thread-free", "9..1", "3 mm", "1/8 in", "<b>", "off", "\u202e"]
)  # fmt: skip
KEYS = st.sampled_from(["title", "any", "all", "at_least", "of", "see", "id", "parts", "behind", "use", "fits", "zz"])
JUNK = st.recursive(
    LEAVES, lambda below: st.lists(below, max_size=3) | st.dictionaries(KEYS, below, max_size=3), max_leaves=8
)


def mutated(data: object, draw: st.DataObject) -> object:
    """The data with one value somewhere in it replaced."""
    if isinstance(data, dict) and data and draw.draw(st.booleans()):
        key = draw.draw(st.sampled_from(sorted(data)))
        return {**data, key: mutated(data[key], draw)}
    if isinstance(data, list) and data and draw.draw(st.booleans()):
        place = draw.draw(st.integers(0, len(data) - 1))
        return [*data[:place], mutated(data[place], draw), *data[place + 1 :]]
    return draw.draw(JUNK)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(draw=st.data())
def test_no_mutation_of_a_record_raises(copy: Path, draw: st.DataObject) -> None:
    file = draw.draw(st.sampled_from(FILES))
    data = yaml.load((SOUND / file).read_text(), Loader=yaml.BaseLoader)
    (copy / file).write_text(yaml.safe_dump(mutated(data, draw), allow_unicode=True))
    try:
        _, findings = load([copy])
    finally:
        shutil.copy(SOUND / file, copy / file)
    assert all(f.line >= 1 and f.column >= 1 and f.message and f.hint for f in findings)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(file=st.sampled_from(FILES), raw=st.binary(max_size=40), cut=st.integers(0, 400))
def test_no_garbage_in_a_file_raises(copy: Path, file: Path, raw: bytes, cut: int) -> None:
    good = (SOUND / file).read_bytes()
    (copy / file).write_bytes(good[:cut] + raw + good[cut:])
    load([copy])
    shutil.copy(SOUND / file, copy / file)
