"""Content folders laid over one another."""

from pathlib import Path

import pytest

from generator.records.load import load
from generator.records.model import AssemblyUse
from generator.records.own import Own
from generator.records.read import read

HERE = Path(__file__).parent


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "base").symlink_to(HERE / "sound")
    monkeypatch.chdir(tmp_path)


def lay(path: str, text: str, folder: str = "own") -> None:
    file = Path(folder, path)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text)


FOLDERS = [Path("base"), Path("own")]


def test_mappings_merge_and_scalars_replace_key_by_key() -> None:
    lay("assemblies/hook-drive.yaml", "parts:\n  hook-gear:\n    off: {minutes: 4}\n")
    gear = load(FOLDERS)[0].assemblies["hook-drive"].parts["hook-gear"]
    assert gear.off.minutes == 4
    assert gear.off.position == "on-its-back"
    assert gear.on.minutes == 6
    assert gear.behind == ("needle", "plate")


def test_lists_replace() -> None:
    lay("families/testa-1.yaml", "assemblies: [covers]\n")
    assert load(FOLDERS)[0].families["testa-1"].assemblies == (AssemblyUse("covers"),)


def test_fastener_notes_merge_by_joint() -> None:
    lay("fasteners/testa-1.yaml", "- {joint: gear-screws, count: 2}\n- {joint: extra, kind: nut}\n")
    notes = load(FOLDERS)[0].fasteners["testa-1"]
    assert [(n.joint, n.kind, n.count, n.thread) for n in notes] == [
        ("plate-screws", "countersunk screw", None, None),
        ("gear-screws", "set screw", 2, "10-32"),
        ("extra", "nut", None, None),
    ]


def test_small_lists_merge_by_entry() -> None:
    lay("tools.yaml", "driver: {size: 5 mm}\nawl: {title: Awl}\n")
    tools = load(FOLDERS)[0].tools
    assert (tools["driver"].title, tools["driver"].size) == ("Screwdriver", "5 mm")
    assert list(tools) == ["awl", "driver"]


def test_a_shop_keeps_its_own_figures_over_the_base() -> None:
    lay("shop.yaml", "labour_rate: 55\nstock: {hook-gear: 1}\n")
    shop = load(FOLDERS)[0].shop
    assert (shop.currency, shop.labour_rate) == ("€", 55)
    assert shop.stock == {"needle": 30, "hook-gear": 1}


def test_what_two_folders_say_alike_is_no_disagreement() -> None:
    lay("shop.yaml", "labour_rate: 40\nstock: {needle: 31}\n")
    lay("fasteners/testa-1.yaml", "- {joint: gear-screws, count: 9, thread: 8-36}\n- {joint: extra, kind: nut}\n")
    told = [(f.path.name, f.message.partition(" in ")[0]) for f in read(FOLDERS).findings]
    assert [name for name, _ in told] == ["testa-1.yaml", "shop.yaml"]
    assert told[1][1] == "'needle' is '31' here and '30'"


def test_validation_comes_after_the_merge() -> None:
    lay("checks/watch-hook.yaml", "minutes: 2\n")
    assert [f.level for f in load(FOLDERS)[1]] == ["note"]
    assert [f.message for f in load([Path("own")])[1]][0] == "'how' is missing."


def test_every_value_keeps_the_place_where_it_is_written() -> None:
    lay("assemblies/hook-drive.yaml", "# own\nparts:\n  hook-gear:\n    off: {minutes: 4}\n")
    records, _ = load(FOLDERS)
    off = ("parts", "hook-gear", "off")
    own = records.position_of("assembly", "hook-drive", (*off, "minutes"))
    base = records.position_of("assembly", "hook-drive", (*off, "position"))
    assert own is not None
    assert base is not None
    assert (own.path, own.line, own.column) == (Path("own/assemblies/hook-drive.yaml"), 4, 20)
    assert (base.path, base.line, base.column) == (Path("base/assemblies/hook-drive.yaml"), 9, 21)


def test_a_value_without_a_place_has_the_place_of_what_holds_it() -> None:
    records, _ = load(FOLDERS[:1])
    there = records.position_of("assembly", "covers", ("parts", "plate", "what"))
    assert there == records.position_of("assembly", "covers", ("parts", "plate"))
    assert records.position_of("assembly", "no-such") is None


def test_a_third_folder_lies_over_the_second() -> None:
    lay("shop.yaml", "labour_rate: 55\n")
    lay("shop.yaml", "labour_rate: 60\n", "third")
    assert load([*FOLDERS, Path("third")])[0].shop.labour_rate == 60
    assert load([Path("third"), *reversed(FOLDERS)])[0].shop.labour_rate == 40


def test_what_does_not_merge_is_named_in_the_file_that_is_wrong() -> None:
    lay("tools.yaml", "[a]\n")
    (finding,) = read(FOLDERS).findings
    assert str(finding.path) == "own/tools.yaml"


def test_what_a_later_folder_says_is_known_as_its_own_by_its_outermost_keys() -> None:
    lay("assemblies/hook-drive.yaml", "summary: Ours.\nparts:\n  hook-gear:\n    off: {minutes: 4}\n")
    lay("techniques/our-way.yaml", "title: Our way\nsteps:\n  - do: Wait.\n")
    assert load([Path("base")])[0].own == {}
    assert load(FOLDERS)[0].own == {
        "assembly": {"hook-drive": Own("own", ("parts.hook-gear.off.minutes", "summary"))},
        "technique": {"our-way": Own("own")},
    }
