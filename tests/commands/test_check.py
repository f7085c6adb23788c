"""`check` as a person or a hook runs it."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands.check import check
from generator.content_rules import ALL_RULES
from generator.records.load import load

SOUND = Path(__file__).parents[1] / "records" / "sound"
COUNT = len(load([SOUND])[0].places)


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(check, arguments)


def spoil(path: str, text: str) -> None:
    Path("content", path).write_text(text)


def test_sound_content_passes_with_a_summary() -> None:
    result = run()
    assert (result.exit_code, result.output) == (0, f"{COUNT} records: no problems.\n")


def test_problems_exit_with_1_and_name_every_place() -> None:
    spoil("failure-modes/gear-cracked.yaml", "titel: T\npart: hook-gear\nseen: 20\nremedy: {renew: [hook-gear]}\n")
    result = run()
    assert result.exit_code == 1
    assert result.output.splitlines() == [
        "content/failure-modes/gear-cracked.yaml:1:1: 'titel' is no key that can stand here. "
        "Did you mean 'title'? [schema]",
        "content/failure-modes/gear-cracked.yaml:1:1: 'title' is missing. "
        "Add it, such as `title: Hook-shaft gear`. [schema]",
        f"{COUNT} records: 2 problems.",
    ]


def test_warnings_alone_pass() -> None:
    spoil("tools.yaml", "driver: {title: Driver}\nawl: {title: Awl}\n")
    result = run()
    assert result.exit_code == 0
    assert result.output.endswith(f"{COUNT + 1} records: 1 warning.\n")


def test_a_path_limits_what_is_reported() -> None:
    spoil("tools.yaml", "driver: {}\n")
    spoil("sources.yaml", "handbook: {}\n")
    assert len(run().output.splitlines()) == 4
    assert run("content/tools.yaml").output.splitlines()[:-2] == [
        "content/tools.yaml:1:9: 'title' is missing. Add it, such as `title: Hook-shaft gear`. [schema]"
    ]
    assert run("content/checks").exit_code == 0
    assert run(str(Path("content").absolute())).exit_code == 1


@pytest.mark.parametrize("path", ["content/no-such.yaml", "."])
def test_a_path_that_is_no_part_of_the_content_is_refused(path: str) -> None:
    assert run(path).exit_code == 1


def test_without_a_content_folder_one_sentence_says_what_to_do() -> None:
    shutil.rmtree("content")
    result = run()
    assert result.exit_code == 1
    assert result.output == (
        "There is no content folder 'content': "
        "go to the folder that holds it, or name one with --content.\n"
    )


def test_later_content_folders_lie_over_earlier_ones() -> None:
    Path("own").mkdir()
    Path("own/shop.yaml").write_text("labour_rate: dear\n")
    result = run("--content", "content", "--content", "own")
    assert result.exit_code == 1
    assert result.output.startswith("own/shop.yaml:1:14: 'labour_rate' is text")


def test_where_two_folders_disagree_it_says_which_wins_and_calls_it_no_fault() -> None:
    Path("own").mkdir()
    Path("own/shop.yaml").write_text("labour_rate: 55\n")
    result = run("--content", "content", "--content", "own")
    assert (result.exit_code, result.output.splitlines()) == (0, [
        "own/shop.yaml:1:14: note: 'labour_rate' is '55' here and '40' in content/shop.yaml:2. "
        "The later folder wins: this one stands. [layers]",
        f"{COUNT} records: no problems, 1 note.",
    ])


def test_a_clean_file_does_not_hide_that_others_are_broken() -> None:
    spoil("sources.yaml", "handbook: {}\n")
    result = run("content/tools.yaml")
    assert (result.exit_code, result.output.splitlines()) == (0, [
        f"{COUNT} records: no problems.",
        "Elsewhere there are problems too, in content/sources.yaml: `check` lists them.",
    ])


def test_json_is_json_and_nothing_else() -> None:
    assert json.loads(run("--format", "json").output) == {"problems": []}
    spoil("tools.yaml", "driver: {}\n")
    result = run("--format", "json")
    assert result.exit_code == 1
    assert [p["path"] for p in json.loads(result.output)["problems"]] == ["content/tools.yaml"]


def test_a_pull_request_gets_annotations() -> None:
    spoil("tools.yaml", "driver: {}\n")
    assert run("--format", "annotations").output.startswith("::error file=content/tools.yaml,line=1,col=9,title=schema::")


def test_a_folder_without_records_is_a_mistyped_folder() -> None:
    Path("empty").mkdir()
    result = run("--content", "empty")
    assert result.exit_code == 1
    assert "No record is in empty" in result.output


def test_every_rule_is_listed_with_what_it_holds() -> None:
    told = run("--explain")
    assert told.exit_code == 0
    names = [line.split()[0] for line in told.output.splitlines()]
    assert names == sorted({*(rule.name for rule in ALL_RULES), "schema", "file", "layers"})
    assert "names-exist" in names
    assert "Everything that a record names exists." in told.output


@pytest.mark.parametrize("name", ["schema", "file", *(rule.name for rule in ALL_RULES)])
def test_a_rule_is_explained_by_a_bad_and_a_good_record(name: str) -> None:
    told = run("--explain", name)
    assert told.exit_code == 0
    bad, said, good = (told.output.index(word) for word in ("\nBad, in ", "\nIt says:", "\nGood, in "))
    assert told.output.startswith(f"{name} (")
    assert bad < said < good
    assert f"[{name}]" in told.output[said:good]


def test_a_note_is_explained_as_no_fault() -> None:
    assert "the later one wins: a note, and no fault." in run("--explain", "layers").output


def test_a_name_that_is_no_rules_gets_the_nearest() -> None:
    told = run("--explain", "names-exits")
    assert (told.exit_code, told.output) == (1, "'names-exits' is no rule. Did you mean 'names-exist'?\n")
