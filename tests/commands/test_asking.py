"""`rank`, `flow`, `tree` and `compare` as a person or another tool asks them."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result

from generator.commands.compare import compare
from generator.commands.flow import flow
from generator.commands.rank import rank
from generator.commands.tree import tree

SOUND = Path(__file__).parents[1] / "records" / "sound"
COMPLAINT = ("skipped-stitches", "-f", "testa-1")


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)


def run(command, *arguments: str) -> Result:
    return CliRunner().invoke(command, arguments)


def asked(command, *arguments: str) -> dict:
    result = run(command, *arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def test_rank_gives_the_agreed_keys_and_shares_that_make_a_whole() -> None:
    told = asked(rank, *COMPLAINT)
    assert {"causes", "next_check", "expected_minutes", "exact", "lower_bound"} <= set(told)
    assert all({"id", "share", "remedy"} <= set(cause) for cause in told["causes"])
    assert sum(cause["share"] for cause in told["causes"]) == pytest.approx(1)
    assert told["lower_bound"] <= told["expected_minutes"] + 1e-9


def test_an_answer_moves_the_shares_as_bayes_rule_does() -> None:
    """By hand: outcome 1 of three fits the cracked gear; trust 0.95, the rest of 0.05 shared by the other outcomes."""
    before = {c["id"]: c["share"] for c in asked(rank, *COMPLAINT)["causes"]}
    after = {c["id"]: c["share"] for c in asked(rank, *COMPLAINT, "--saw", "watch-hook=1")["causes"]}
    seen = {i: share * (0.95 if i == "gear-cracked" else 0.025) for i, share in before.items()}
    assert after == pytest.approx({i: w / sum(seen.values()) for i, w in seen.items()})


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--saw", "watch-hook=1", "--saw", "watch-hook=2"), "'watch-hook' is given twice with --saw"),
        (("--saw", "watch-hook=9"), "'watch-hook' has no outcome 9. It has: 1 It stands still"),
        (("--saw", "watch-hook"), "'watch-hook' says no outcome"),
        (("--skip", "watch-hok"), "Did you mean 'watch-hook'?"),
    ],
)
def test_rank_refuses_what_makes_no_sense_in_one_sentence(given, said) -> None:
    result = run(rank, *COMPLAINT, *given)
    assert result.exit_code == 1
    assert said in result.output
    assert len(result.output.splitlines()) == 1


def test_flow_gives_a_policy_whose_minutes_can_be_added_up_again() -> None:
    told = asked(flow, *COMPLAINT)
    assert {"policy", "expected_minutes", "record_order_minutes", "ratio_order_minutes", "exact", "lower_bound", "hypotheses"} <= set(told)

    def below(node) -> tuple[float, float]:
        """Share of the whole that comes here, and its minutes times that share."""
        if node is None:
            return 0.0, 0.0
        if "check" in node:
            parts = [below(o["then"]) for o in node["outcomes"]]
            share = sum(o["share"] for o in node["outcomes"])
        else:
            parts = [below(node["else"])]
            share = node["cured_share"] + parts[0][0]
        return share, node["minutes"] * share + sum(minutes for _, minutes in parts)

    assert below(told["policy"]) == pytest.approx((1, told["expected_minutes"]))
    assert told["expected_minutes"] <= min(told["record_order_minutes"], told["ratio_order_minutes"]) + 1e-9


def test_tree_as_json_has_cut_sets_a_probability_and_importance() -> None:
    result = run(tree, *COMPLAINT, "--as", "json")
    told = json.loads(result.output)
    assert ["gear-cracked"] in told["cut_sets"]
    assert 0 < told["probability"] < 1
    assert set(told["importance"]["gear-cracked"]) >= {"birnbaum", "fussell_vesely", "criticality"}


@pytest.mark.parametrize("form", ["svg", "mef"])
def test_tree_as_xml_is_well_formed(form) -> None:
    assert ElementTree.fromstring(run(tree, *COMPLAINT, "--as", form).output) is not None


def _commit(*words: str) -> None:
    who = ("-c", "user.name=A", "-c", "user.email=a@example.org")
    subprocess.run(["git", *who, *words], check=True, capture_output=True)


def test_compare_tells_a_reviewer_what_came_and_which_orders_moved() -> None:
    for words in (("init",), ("add", "."), ("commit", "-m", "sound")):
        _commit(*words)
    path = Path("content/failure-modes/gear-cracked.yaml")
    path.write_text(path.read_text(encoding="utf-8").replace("seen: 20", "seen: 900"), encoding="utf-8")
    told = asked(compare, "HEAD")
    assert {"added", "changed", "order_changes"} <= set(told)
    assert [record["id"] for record in told["changed"]] == ["gear-cracked"]


def test_compare_takes_no_option_for_a_revision() -> None:
    result = run(compare, "--", "--output=taken.tar")
    assert result.exit_code == 1
    assert "no revision" in result.output
    assert not Path("taken.tar").exists()
