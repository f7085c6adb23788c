"""`tree` as a person or another tool asks it."""

from __future__ import annotations

import json
from xml.etree import ElementTree

import pytest

from generator.commands.tree import tree
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
