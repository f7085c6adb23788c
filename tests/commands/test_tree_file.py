"""`tree --from FILE`: a tree of the open exchange format is read, printed, and refused in one line where it is at fault."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from generator.commands.tree import tree
from tests.commands.asking import COMPLAINT, run

GIVEN = """<?xml version="1.0"?>
<opsa-mef><define-fault-tree name="pumps">
<define-gate name="top"><or><gate name="both"/><event name="c"/></or></define-gate>
<define-gate name="both"><label>Both pumps</label><and><basic-event name="a"/><basic-event name="b"/></and></define-gate>
<define-basic-event name="a"><float value="0.067"/></define-basic-event>
<define-basic-event name="b"><float value="0.075"/></define-basic-event>
<define-basic-event name="c">{last}</define-basic-event>
</define-fault-tree></opsa-mef>"""
WITH, WITHOUT = GIVEN.format(last='<float value="0.005"/>'), GIVEN.format(last="")
pytestmark = pytest.mark.usefixtures("in_sound_folder")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "pumps.xml"


def test_a_file_is_printed_with_its_cut_sets_and_its_chance(file: Path) -> None:
    """0.067 x 0.075 + 0.005 - their product, by hand: 0.009999875."""
    file.write_text(WITH)
    said = run(tree, "--from", str(file)).output
    assert "Both pumps: all of" in said
    assert "Minimal cut sets:\n  c\n  a + b\n" in said
    assert "Chance of the top event: 0.01." in said
    told = json.loads(run(tree, "--from", str(file), "--json").output)
    assert told["cut_sets"] == [["c"], ["a", "b"]]
    assert told["probability"] == pytest.approx(0.009999875)


def test_a_file_without_chances_still_has_its_cut_sets(file: Path) -> None:
    file.write_text(WITHOUT)
    assert "Minimal cut sets:\n  c\n  a + b\n" in run(tree, "--from", str(file)).output
    assert "probability" not in json.loads(run(tree, "--from", str(file), "--json").output)


def test_what_the_command_writes_it_reads_again(file: Path) -> None:
    file.write_text(run(tree, *COMPLAINT, "--as", "mef").output)
    there, back = (json.loads(run(tree, *asked, "--json").output) for asked in (COMPLAINT, ("--from", str(file))))
    for key in ("cut_sets", "probability", "importance"):
        assert back[key] == there[key]


def _doubled(times: int) -> str:
    gates = "".join(
        f'<define-gate name="g{n}"><or><gate name="g{n + 1}"/><and><gate name="g{n + 1}"/><event name="e"/></and></or></define-gate>'
        for n in range(times)
    )
    last = f'<define-gate name="g{times}"><or><event name="e"/></or></define-gate><define-basic-event name="e"/>'
    return f'<opsa-mef><define-fault-tree name="t">{gates}{last}</define-fault-tree></opsa-mef>'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "not well-formed XML"),
        ("<opsa-mef><define-fault-tree", "not well-formed XML"),
        ("<html/>", "not <opsa-mef>"),
        ('<!DOCTYPE x [<!ENTITY a "b">]><opsa-mef/>', "document type"),
        (WITH.replace('name="c"/>', 'name="d"/>'), "'d', which is not defined"),
        (WITH.replace("0.005", "5"), "outside 0 to 1"),
        (_doubled(40), "more than 20000 nodes"),
        (_doubled(300), "more than 200 gates deep"),
    ],
)
def test_a_file_at_fault_is_refused_in_one_line(file: Path, text: str, said: str) -> None:
    file.write_text(text)
    result = run(tree, "--from", str(file))
    assert result.exit_code == 1
    assert said in result.output
    assert len(result.output.strip().splitlines()) == 1
    assert str(file) in result.output


def test_a_gate_of_some_of_its_inputs_is_written_as_the_records_write_one(file: Path) -> None:
    file.write_text(WITH.replace("<and>", '<atleast min="2">').replace("</and>", "</atleast>"))
    told = json.loads(run(tree, "--from", str(file), "--json").output)["tree"]
    both = {"id": "both", "title": "Both pumps", "at_least": 2, "of": ["a", "b"]}
    assert both in told["any"] or {**both, "id": told["any"][0]["id"]} in told["any"]


def test_a_file_that_is_too_large_is_not_read(file: Path, monkeypatch) -> None:
    file.write_text(WITH)
    monkeypatch.setattr("generator.commands.tree_file.MOST_BYTES", len(WITH))
    assert run(tree, "--from", str(file)).exit_code == 0
    file.write_text(WITH + " ")
    result = run(tree, "--from", str(file))
    assert (result.exit_code, result.output) == (1, f"{file}: The file is larger than 0 MB.\n")
