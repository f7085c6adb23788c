"""The fastener command: keys of its JSON, its exits, its few lines."""

import json

import pytest
from click.testing import CliRunner

from generator.__main__ import main
from generator.commands.fastener import fastener


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(fastener, list(arguments))
    assert result.exception is None or isinstance(result.exception, SystemExit)
    return result.exit_code, result.output


def data(*arguments: str) -> dict:
    code, output = run(*arguments, "--json")
    assert code == 0
    return json.loads(output)


def test_json_names_the_key_of_asme_b18_3_and_what_nearly_fits() -> None:
    found = data("10-32")
    assert (found["key"], found["key_source"], found["source"]) == ("3/32 in", "asme-b18.3", "asme-b1.1")
    assert found["near_misses"][0]["key"] == "2.5 mm"
    assert found["turns_to_clear"] is None and found["flat_depth_mm"] is None


def test_json_gives_depth_and_turns_by_their_formulas() -> None:
    found = data("10-32", "--shaft", "20", "--flat", "12 mm")
    # Sagitta of a chord: r 10, chord 12 -> 2; turns = (depth + margin) / pitch.
    assert found["flat_depth_mm"] == pytest.approx(2)
    assert found["turns_to_clear"] == pytest.approx((2 + found["margin_mm"]) * 32 / 25.4)
    assert found["turns_advised"] >= found["turns_to_clear"]


def test_inches_and_millimetres_of_one_shaft_agree() -> None:
    inches = data("10-32", "--shaft", "5/16 in", "--flat", "1/8 in")
    assert inches["flat_depth_mm"] == pytest.approx(data("10-32", "--shaft", "7.9375", "--flat", "3.175")["flat_depth_mm"])


def test_a_cap_screw_takes_another_key() -> None:
    # ISO 4026 and ISO 4762.
    assert (data("M4")["key"], data("M4", "--kind", "cap")["key"]) == ("2 mm", "3 mm")


def test_an_inferred_key_says_measure_it() -> None:
    found = data("11/64-40")
    assert found["key_inferred_from"] == "8" and found["key_source"] == "common-practice"
    assert "Measure it" in found["caveat"]


def test_no_key_is_null_with_a_sentence() -> None:
    found = data("M4.5")
    assert found["key"] is None and found["near_misses"] == []
    assert found["caveat"].startswith("No table gives a key for M4.5")


def test_the_lines_are_few_and_say_what_to_do() -> None:
    code, output = run("10-32", "--shaft", "8 mm", "--flat", "4 mm")
    assert code == 0 and len(output.splitlines()) <= 10
    assert "Key: 3/32 in, 2.38 mm (asme-b18.3)" in output
    assert "Clear of the flat after one turn. Give it two turns, or take it right out if in doubt." in output


def test_a_thread_in_no_table_names_the_nearest() -> None:
    assert "No table here lists it; the nearest are 3/16-28" in run("10-28")[1]


def test_torque_never_stands_without_its_caution() -> None:
    found, (_, lines) = data("8-32"), run("8-32")
    assert [row["torque_lbf_in"] for row in found["seating"]] == [15, 20]
    assert found["seating_caution"] in lines


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("xyz",), "'xyz' is no thread"),
        (("#10",), "write '10-24' or '10-32'"),
        (("10-32", "--shaft", "8", "--flat", "9"), "does not go on a shaft"),
        (("10-32", "--shaft", "8", "--flat", "0"), "must be more than zero"),
        (("10-32", "--shaft", "0", "--flat", "1"), "must be more than zero"),
        (("10-32", "--shaft", "eight", "--flat", "1"), "is no quantity"),
        (("10-32", "--shaft", "8 N", "--flat", "1"), "is a force and cannot be given in 'mm'"),
    ],
)
def test_bad_input_ends_in_one_line_and_exit_1(arguments: tuple[str, ...], says: str) -> None:
    code, output = run(*arguments)
    assert code == 1
    assert output.count("\n") == 1
    assert says in output


@pytest.mark.parametrize("arguments", [(), ("10-32", "--shaft", "8"), ("10-32", "--flat", "4"), ("10-32", "--kind", "bolt")])
def test_wrong_usage_exits_1_in_one_line(arguments: tuple[str, ...]) -> None:
    told = CliRunner().invoke(main, ["fastener", *arguments])
    assert (told.exit_code, told.output.count("\n")) == (1, 1)


def test_a_screw_of_which_no_table_gives_key_or_torque_has_no_line_of_them() -> None:
    code, output = run("M4.5")
    assert code == 0
    assert "No table gives a key for M4.5" in output and "mm to tap" in output
    assert not any(line.startswith(("Key:", "Seating torque", "Flat:")) for line in output.splitlines())
