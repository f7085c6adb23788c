"""The plan command on a small content folder whose minutes and order are reckoned by hand."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.commands.plan import plan

CONTENT = Path(__file__).parents[1] / "fixtures" / "jobs"
KEYS = {"steps", "settings", "while_open", "minutes", "tools", "parts", "quote"}


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The command keeps its cache where it is run."""
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(plan, ["--content", str(CONTENT), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.output


def data(*arguments: str) -> dict:
    code, output = run("--json", *arguments)
    assert code == 0, output
    return json.loads(output)


def test_json_has_the_documented_keys_and_minutes_that_add_up() -> None:
    got = data("-f", "probe-1", "--for", "gear-cracked")
    assert got.keys() >= KEYS
    assert all({"do", "part", "phase", "minutes"} <= step.keys() for step in got["steps"])
    assert got["minutes"] == sum(step["minutes"] for step in got["steps"]) == 32
    assert got["parts"] == ["gear"]
    assert got["settings"] == ["timing"]
    assert got["quote"]["total"] == [45, 70]
    assert got["quote"]["invented"] is True


def test_a_part_comes_off_after_all_that_it_is_behind_and_goes_on_before_them() -> None:
    steps = data("-f", "probe-1", "--renew", "gear")["steps"]
    off = [s["part"] for s in steps if s["do"] == "take off"]
    on = [s["part"] for s in steps if s["do"] == "refit"]
    assert off[-1] == "gear" and set(off[:-1]) == {"needle", "cover"}
    assert on[0] == "gear"
    assert steps[-1]["do"] == "sew"


def test_several_remedies_make_one_visit_with_one_way_in_and_one_proving_sew() -> None:
    got = data("-f", "probe-1", "--renew", "gear", "--renew", "needle", "--set", "pressure", "--for", "lint-packed")
    assert got["minutes"] == 32 + 1 + 3  # the needle and the cover are off for the gear already
    assert [s["part"] for s in got["steps"]].count("cover") == 2
    assert [s["do"] for s in got["steps"]].count("sew") == 1
    assert got["parts"] == ["gear", "needle"]


def test_text_numbers_the_steps_and_puts_each_caution_before_the_step_that_it_guards() -> None:
    code, output = run("-f", "probe-1", "--for", "gear-cracked")
    assert code == 0
    lines = output.splitlines()
    numbered = [line for line in lines if line[:3].strip().isdigit()]
    assert [int(line[:3]) for line in numbered] == list(range(1, len(numbered) + 1))
    place = {text: next(n for n, line in enumerate(lines) if text in line) for text in ("Pull the plug.", "It meets the hook.", "Take off Needle", "Take off Hook gear")}
    assert place["Pull the plug."] < place["Take off Needle"]
    assert place["It meets the hook."] < place["Take off Hook gear"]
    assert "left-hand thread" in output and "€45 to €70" in output and "invented" in output


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (("--renew", "geer"), "'geer' is no part of this family. Did you mean 'gear'?"),
        (("--set", "timming"), "'timming' is no setting of this family. Did you mean 'timing'?"),
        (("--for", "gear-craked"), "'gear-craked' is no failure mode. Did you mean 'gear-cracked'?"),
    ],
)
def test_a_word_that_is_not_known_is_refused_with_the_nearest_one(asked: tuple[str, str], said: str) -> None:
    code, output = run("-f", "probe-1", *asked)
    assert (code, output.strip()) == (1, said)


def test_a_failure_mode_that_the_family_cannot_have_is_refused_with_the_reason() -> None:
    code, output = run("-f", "probe-2", "--for", "gear-cracked")
    assert code == 1
    assert output.strip() == "Probe 2-series cannot have 'Gear cracked': this family has no hook gear."


def test_asking_for_nothing_is_a_fault_of_usage() -> None:
    code, output = run("-f", "probe-1")
    assert code == 1
    assert "Nothing to plan" in output
