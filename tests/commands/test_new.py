"""`new`: what it writes passes `check` once the examples are one's own, and not before."""

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands.new import new
from generator.records.kinds import KINDS
from generator.records.load import load
from generator.records.report import as_text
from generator.records.schema import schema

SOUND = Path(__file__).parents[1] / "records" / "sound"
IDS = {kind: f"new-{kind}" for kind in KINDS} | {
    "feature": "new_feature",
    "figure": "new_figure",
    "question": "hook",
    "shop": "shop",
    "fasteners": "testa-2",
}
LISTS = [name for name, kind in KINDS.items() if kind.is_list]


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(new, arguments)


def errors() -> str:
    return as_text(f for f in load([Path("content")])[1] if f.level == "error")


def own(path: Path) -> None:
    """Take every example for one's own."""
    path.write_text(path.read_text().replace(" !example", ""))


@pytest.mark.parametrize("kind", KINDS)
def test_a_starting_record_passes_check_beside_other_records(kind: str) -> None:
    Path("content/shop.yaml").unlink()
    if kind == "fasteners":
        run("family", "testa-2", "--like", "testa-1")
        own(Path("content/families/testa-2.yaml"))
    result = run(kind, IDS[kind])
    path = Path(result.output.splitlines()[0])
    own(path)
    assert (result.exit_code, errors()) == (0, "")
    assert path == Path("content") / KINDS[kind].file_for(IDS[kind])
    assert (kind, IDS[kind]) in load([Path("content")])[0].places


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "fasteners"])
def test_a_starting_record_keeps_to_its_schema_in_an_empty_folder(kind: str) -> None:
    shutil.rmtree("content")
    Path("content").mkdir()
    own(Path(run(kind, IDS[kind]).output.strip()))
    kept = [line for line in errors().splitlines() if " is no " not in line]
    assert kept == []


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "shop"])
def test_every_example_in_a_starting_record_is_refused_where_it_stands_until_it_is_ones_own(kind: str) -> None:
    """A title is made from the id; all else that a record must have is an example, and the shop must have nothing."""
    if kind == "fasteners":
        run("family", "testa-2", "--like", "testa-1")
        own(Path("content/families/testa-2.yaml"))
    path = Path(run(kind, IDS[kind]).output.splitlines()[0])
    marked = [(n, line.index("!example") + 1) for n, line in enumerate(path.read_text().splitlines(), 1) if "!example" in line]
    told = [f for f in load([Path("content")])[1] if f.level == "error"]
    assert [(f.path, f.line, f.column) for f in told] == [(path, *place) for place in marked]
    assert {(f.message, f.hint) for f in told} <= {("This is the example's value.", "Write your own, and take out !example.")}
    assert marked or schema(KINDS[kind].schema).get("additionalProperties", {}).get("required") == ["title"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_starting_record_explains_every_key(kind: str) -> None:
    Path("content/shop.yaml").unlink()
    if kind == "fasteners":
        shutil.copy("content/families/testa-1.yaml", "content/families/testa-2.yaml")
    run(kind, IDS[kind])
    text = (Path("content") / KINDS[kind].file_for(IDS[kind])).read_text()
    shape = schema(KINDS[kind].schema)
    shape = shape.get("items") or (shape["additionalProperties"] if KINDS[kind].is_list else shape)
    for key, part in shape["properties"].items():
        assert f"{key}:" in text
        assert " ".join(part["description"].split()[:5]) in text


def test_an_uncommented_starting_record_is_good_too() -> None:
    run("failure-mode", "felt-dry")
    path = Path("content/failure-modes/felt-dry.yaml")
    lines = path.read_text().splitlines()
    keys = tuple(f"# {key}:" for key in schema("failure-mode")["properties"] if key not in ("setting", "lacks"))
    out = [line[2:] if line.startswith(keys) and not line.endswith(":") else line for line in lines]
    path.write_text("\n".join(out) + "\n")
    own(path)
    assert errors() == ""
    assert load([Path("content")])[0].failure_modes["felt-dry"].effects


def test_nothing_is_overwritten() -> None:
    before = Path("content/checks/watch-hook.yaml").read_bytes()
    result = run("check", "watch-hook")
    assert (result.exit_code, result.output) == (
        1,
        "'content/checks/watch-hook.yaml' is there already; it stays as it is.\n",
    )
    assert Path("content/checks/watch-hook.yaml").read_bytes() == before


def test_an_entry_is_added_to_the_end_of_its_list_once() -> None:
    before = Path("content/tools.yaml").read_text()
    assert run("tool", "awl").exit_code == 0
    after = Path("content/tools.yaml").read_text()
    assert after.startswith(before.rstrip())
    assert run("tool", "awl").exit_code == 1
    assert Path("content/tools.yaml").read_text() == after


@pytest.mark.parametrize("text", ["[a]\n", "{driver: {title: D}}\n", "  driver: {title: D}\n", "driver: [\n"])
def test_a_list_that_cannot_be_added_to_stays_as_it_is(text: str) -> None:
    Path("content/tools.yaml").write_text(text)
    assert run("tool", "awl").exit_code == 1
    assert Path("content/tools.yaml").read_text() == text


def test_fastener_notes_get_an_entry_for_each_joint_of_their_family() -> None:
    before = load([Path("content")])[0].fasteners["testa-1"]
    path = Path("content/fasteners/testa-1.yaml")
    path.unlink()
    assert f"Joints: {len(before)}." in run("fasteners", "testa-1").output
    own(path)
    assert errors() == ""
    assert {note.joint for note in load([Path("content")])[0].fasteners["testa-1"]} == {note.joint for note in before}


def test_notes_that_are_there_stay_and_only_a_joint_without_one_gets_an_entry() -> None:
    path = Path("content/fasteners/testa-1.yaml")
    assert run("fasteners", "testa-1").output.endswith("is there already; it stays as it is.\n")
    head = path.read_text().partition("- {joint: gear-screws")[0]
    path.write_text(head)
    assert "Joints without a note before: 1." in run("fasteners", "testa-1").output
    own(path)
    assert path.read_text().startswith(head.rstrip("\n"))
    assert [note.joint for note in load([Path("content")])[0].fasteners["testa-1"]] == ["plate-screws", "gear-screws"]


def test_notes_of_no_family_are_refused_with_the_nearest_one() -> None:
    assert run("fasteners", "testa").output == "'testa' is no family. Did you mean 'testa-1'?\n"


def test_a_family_like_another_is_sound_once_every_value_was_looked_at_and_not_before() -> None:
    said = run("family", "testa-2", "--like", "testa-1").output
    path = Path("content/families/testa-2.yaml")
    near, marks = load([Path("content")])[0].families["testa-1"], path.read_text().count(": !example")
    assert errors().count("This is the example's value.") == len(errors().splitlines()) == marks >= 3 + len(near.figures)
    own(path)
    made = load([Path("content")])[0].families["testa-2"]
    assert (errors(), made.title) == ("", "Testa 2")
    assert (made.assemblies, made.features, made.figures) == (near.assemblies, near.features, near.figures)
    assert not (made.models or made.rates or made.notes)
    assert said.startswith("content/families/testa-2.yaml\nBegun from testa-1. Look at:\n")


def test_like_begins_a_family_and_nothing_else() -> None:
    assert run("check", "listen", "--like", "testa-1").output == "--like begins a family: `new family ID --like FAMILY`.\n"
    assert run("family", "testa-2", "--like", "testa").output == "'testa' is no family. Did you mean 'testa-1'?\n"
    assert not Path("content/families/testa-2.yaml").exists()


@pytest.mark.parametrize(("kind", "id", "made"), [("check", "roll_needle", "roll-needle"), ("feature", "knee-lift", "knee_lift")])
def test_an_id_forgives_hyphen_and_underscore(kind: str, id: str, made: str) -> None:
    assert run(kind, id).exit_code == 0
    assert (kind, made) in load([Path("content")])[0].places


@pytest.mark.parametrize("id", ["Hook_Gear", "../../etc", "a b", "", "a\n"])
def test_what_is_no_id_is_refused(id: str) -> None:
    assert run("check", id).exit_code == 1


def test_a_place_that_cannot_be_written_is_one_line() -> None:
    shutil.rmtree("content/checks")
    Path("content/checks").write_text("in the way")
    result = run("check", "look")
    assert result.exit_code == 1
    assert result.output.startswith("'content/checks/look.yaml' ")
