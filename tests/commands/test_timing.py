"""The timing command on the records of the site."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.bench import Bench
from generator.commands import common
from generator.commands.timing import timing

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(autouse=True)
def _elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, shared: Path, published: Bench) -> None:
    """Not the checkout; the records were read once for all processes."""
    monkeypatch.setattr(common, "CACHE", shared)
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(timing, ["--content", str(CONTENT), *arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.output


def test_json_has_its_keys_and_the_settings_own_target() -> None:
    code, output = run("tessaly-40", "--json")
    got = json.loads(output)
    assert code == 0 and got.keys() >= {"rise", "teeth", "hook", "feed"}
    assert (got["rise"]["low"], got["rise"]["high"]) == (1.8, 2.5)
    assert got["teeth"]["degrees"] == 20  # 360 / 18
    assert got["feed"]["longest_spi"] == pytest.approx(6)
    assert got["feed"]["longest_mm"] == pytest.approx(4.2333, abs=1e-4)  # worked: 25.4 / 6


def test_the_text_begins_with_the_caution_and_ends_with_what_stands_above_it() -> None:
    lines = run("tessaly-40")[1].splitlines()
    assert lines[0].startswith("Unplug it.")
    assert "service data" in lines[-1]
    assert not run("larkrise-h")[1].startswith("Unplug")


def test_a_figure_that_is_missing_is_said_with_how_to_measure_it() -> None:
    assert "hook's radius is not recorded" in run("pellworth-f")[1]


def test_an_unknown_family_is_refused_in_one_line() -> None:
    code, output = run("tesaly-40")
    assert code == 1 and "Did you mean 'tessaly-40'?" in output


def test_every_part_of_the_sheet_is_in_the_answer() -> None:
    got = json.loads(run("tessaly-40", "--json")[1])
    assert [i["past"] for i in got["instants"]] == pytest.approx([-2, 0, 2], abs=1e-9)
    assert got["motor"]["speed"] == pytest.approx(900 * got["motor"]["ratio"])
    assert got["gears"]["can_be"][0]["system"] == "module"
    assert got["teeth"]["centres"] == pytest.approx((97 - 18) * 5.08 / 2)  # worked: equal pulleys, XL of ISO 5296
    assert {"setting": "foot-height", "of": "sole", "to": "needle plate", "tool": "steel-rule", "range": "5 mm to 7 mm"} in got["gauges"]
    assert "The needle goes along with the dog" in run("bracklow-c")[1]
