"""The coverage command on a small content folder whose figures are reckoned by hand."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.analysis.check_order.case import Check
from generator.bench import Bench
from generator.commands.coverage import coverage
from generator.content_rules import load_checked
from generator.library import Library
from tests.analysis.check_order.order_brute_force import least_minutes

CONTENT = Path(__file__).parents[1] / "fixtures" / "coverage"
SKIPS_1 = 1 - 0.96 * 0.98 * 0.98 * 0.99 * 0.99
"Chance of the symptom: no cause is there with this much probability, and one minus it."
SKIPS_2 = 1 - 0.96 * 0.98 * 0.99
NOISE_2 = 0.03


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command keeps its cache where it is run."""
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(coverage, ["--content", str(CONTENT), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.output


def data(*arguments: str) -> dict:
    code, output = run("--json", *arguments)
    assert code == 0
    return json.loads(output)


def test_isolated_fractions_of_one_family_are_those_by_hand() -> None:
    """{bent 40, blunt 20} one remedy; {cracked 20, slipped 10} two; {burr 10}, named by no check."""
    found = data("-f", "probe-1")["isolated"]["families"]["probe-1"]
    assert found["causes"] == pytest.approx({"1": 0.1, "2": 1, "3": 1})
    assert found["remedies"] == pytest.approx({"1": 0.7, "2": 1, "3": 1})
    assert found["named"] == pytest.approx(0.9)


def test_complaints_weigh_by_the_chance_of_the_symptom() -> None:
    """On the second family {bent 40, blunt 20} and {burr 10}; its noise has one cause alone."""
    whole = SKIPS_1 + SKIPS_2 + NOISE_2
    overall = data()["isolated"]["overall"]
    causes = (0.1 * SKIPS_1 + 1 / 7 * SKIPS_2 + NOISE_2) / whole
    assert overall["causes"]["1"] == pytest.approx(causes)
    assert overall["remedies"]["1"] == pytest.approx((0.7 * SKIPS_1 + SKIPS_2 + NOISE_2) / whole)
    assert overall["named"] == pytest.approx((0.9 * SKIPS_1 + 6 / 7 * SKIPS_2 + NOISE_2) / whole)


def test_a_group_names_its_causes_remedies_weight_and_the_check_that_would_help() -> None:
    first = data()["groups"][0]
    assert (first["family"], first["symptom"], first["why"]) == ("probe-1", "skips", "no check separates them")
    assert first["causes"] == ["gear-cracked", "gear-slipped"]
    assert first["remedies"] == ["renew:gear", "set:timing"]
    assert first["weight"] == pytest.approx(0.3)
    assert sorted(map(tuple, first["best_check"]["split"])) == [("gear-cracked",), ("gear-slipped",)]


def test_the_saving_is_the_difference_of_two_brute_force_searches() -> None:
    bench = Bench(Library(load_checked([CONTENT])[0]))
    case = bench.complaint(bench.library.for_family("probe-1"), "skips").case
    saved = []
    for shows in ("gear-cracked", "gear-slipped"):
        sees = {h.id: int(h.id != shows) for h in case.hypotheses}
        added = replace(case, checks=(*case.checks, Check("new", 2, (), ("yes", "no"), sees)))
        saved.append(least_minutes(case) - least_minutes(added))
    best = data()["groups"][0]["best_check"]
    assert best["exact"] and best["all_splits"]
    assert best["saves_minutes"] == pytest.approx(max(saved)) and best["saves_minutes"] > 1


def test_every_gap_is_found_and_nothing_else() -> None:
    found = [(g["kind"], g["record"], g["family"], g["symptom"]) for g in data()["gaps"]]
    assert found == [
        ("cause-not-named", "plate-burr", "probe-1", "skips"),
        ("cause-not-named", "plate-burr", "probe-2", "skips"),
        ("check-changes-nothing", "listen", None, None),
        ("mode-without-sign", "gear-cracked", None, None),
        ("mode-with-one-sign", "needle-blunt", None, None),
        ("mode-without-remedy", "motor-loud", "probe-2", None),
        ("symptom-not-listed", "noise", "probe-1", "noise"),
        ("joint-without-note", "gear-screws", "probe-1", None),
        ("joint-without-note", "plate-screws", "probe-2", None),
        ("setting-without-target", "height", "probe-1", None),
        ("setting-without-target", "height", "probe-2", None),
        ("setting-without-proof", "height", "probe-1", None),
        ("setting-without-proof", "height", "probe-2", None),
        ("part-without-price", "gear", "probe-1", None),
    ]


def test_a_shop_with_its_own_price_has_one_gap_less(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "shop.yaml").write_text("labour_rate: 40\ncurrency: €\nprices: {gear: 9..12}\n", encoding="utf-8")
    found = data("--content", str(tmp_path / "mine"))
    assert "part-without-price" not in {g["kind"] for g in found["gaps"]}


def test_a_dear_remedy_that_no_check_can_prove_is_a_gap(tmp_path: Path) -> None:
    """Where every remedy is dear, the burr's is: no check names it. What one check shows is no gap."""
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "shop.yaml").write_text("labour_rate: 40\ncurrency: €\ndear_minutes: 0\n", encoding="utf-8")
    gaps = data("--content", str(tmp_path / "mine"))["gaps"]
    unproved = {(g["record"], g["family"]) for g in gaps if g["kind"] == "dear-remedy-without-proof"}
    assert ("plate-burr", "probe-1") in unproved
    assert ("gear-cracked", "probe-1") not in unproved


def test_one_family_shows_only_its_own() -> None:
    found = data("--family", "probe-2")
    assert list(found["isolated"]["families"]) == ["probe-2"]
    assert {o["family"] for o in found["orders"]} == {"probe-2"}
    assert {g["family"] for g in found["gaps"]} == {"probe-2", None}


def test_orders_are_proved_and_no_plain_rule_beats_them() -> None:
    for order in data()["orders"]:
        assert order["exact"] and order["lower_bound"] == order["expected_minutes"]
        assert order["expected_minutes"] <= min(order["record_order_minutes"], order["ratio_order_minutes"]) + 1e-9


def test_the_text_says_the_same_worst_first() -> None:
    code, output = run()
    assert code == 0
    assert "probe-1                    10.0%  100.0%  100.0%   70.0%" in output
    assert "Order of checks: 3 of 3 proved the best." in output
    assert output.index("gear-cracked, gear-slipped (no check") < output.index("probe-2 skips: needle-bent")
    assert "one that shows gear-cracked saves 1.2 min" in output
    assert "Gaps: 14" in output and max(map(len, output.splitlines())) < 140


def test_an_unknown_family_is_refused_with_the_nearest() -> None:
    code, output = run("-f", "prob-1")
    assert code == 1 and output == "'prob-1' is no family. Did you mean 'probe-1'?\n"


def test_no_records_at_all_is_said() -> None:
    Path("none").mkdir()
    result = CliRunner().invoke(coverage, ["--content", "none"])
    assert result.exit_code == 0 and "No family has a symptom yet." in result.output
