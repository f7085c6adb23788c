"""`tree` as a person or another tool asks it."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator.commands.tree import tree
from generator.diagrams.layout import GraphvizMissing
from tests.commands.asking import COMPLAINT, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")


def test_tree_as_json_has_cut_sets_a_probability_and_importance() -> None:
    result = run(tree, *COMPLAINT, "--as", "json")
    told = json.loads(result.output)
    assert ["gear-cracked"] in told["cut_sets"]
    assert 0 < told["probability"] < 1
    assert set(told["importance"]["gear-cracked"]) >= {"birnbaum", "fussell_vesely", "criticality"}


@pytest.mark.parametrize("form", ["svg", "mef"])
def test_tree_as_xml_is_well_formed(form) -> None:
    assert ElementTree.fromstring(run(tree, *COMPLAINT, "--as", form).output) is not None


def test_tree_as_text_names_what_the_family_cannot_have_and_why() -> None:
    assert "Left out:" not in run(tree, *COMPLAINT).output
    family = Path("content/families/testa-1.yaml")
    family.write_text(family.read_text(encoding="utf-8").replace("zigzag: false", "zigzag: true"), encoding="utf-8")
    said = run(tree, *COMPLAINT).output
    assert "\n\nLeft out:\n  timing-off: " in said
    assert "timing-off" not in said.partition("Left out:")[0]


def test_where_no_picture_can_be_drawn_the_reason_is_the_one_line(monkeypatch) -> None:
    def missing(_):
        raise GraphvizMissing

    monkeypatch.setattr("generator.diagrams.layout.render_all", missing)
    result = run(tree, *COMPLAINT, "--as", "svg")
    assert (result.exit_code, result.output) == (1, f"{GraphvizMissing()}\n")
