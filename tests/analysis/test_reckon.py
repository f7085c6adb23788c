"""The reckoners against handbook values, and the vectors that the browser's copy is held to."""

import json
import runpy
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis import reckon
from generator.standards.belts import BELT_PITCH_MM
from generator.standards.needles import JIS_BLADES_MM, NEEDLES
from generator.standards.quantity import Quantity
from generator.standards.stitch_types import STITCH_TYPES
from tests.vectors import browser_only

FOLDER = Path(__file__).parent.parent / "vectors"
MAKER = runpy.run_path(str(FOLDER / "make_reckoners.py"))
VECTORS = json.loads((FOLDER / "reckoners.json").read_text(encoding="utf-8"))


def call(row: dict) -> object:
    return MAKER["FUNCTIONS"][row["function"]](*row["arguments"])


def name(row: dict) -> str:
    return f"{row['function']}{tuple(row['arguments'])}"


@pytest.mark.parametrize("row", VECTORS["handbook"], ids=name)
def test_python_meets_the_handbook(row: dict) -> None:
    assert call(row) == pytest.approx(row["expected"], abs=row["within"], rel=0)


@pytest.mark.parametrize("row", VECTORS["computed"], ids=name)
def test_python_gives_the_vectors_again(row: dict) -> None:
    expected = row["result"]
    assert call(row) == (expected if isinstance(expected, str) else pytest.approx(expected, rel=1e-12, abs=1e-12))


@pytest.mark.parametrize("row", VECTORS["refused"], ids=name)
def test_what_has_no_answer_is_refused_in_a_sentence(row: dict) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        call(row)


def test_the_file_of_vectors_holds_every_row_of_its_maker() -> None:
    def rows(found: dict) -> list:
        return [(part, row["function"], row["arguments"], row.get("expected")) for part in found for row in found[part]]

    assert rows(VECTORS) == rows(MAKER["vectors"]())


def test_every_reckoner_is_in_the_vectors() -> None:
    assert set(MAKER["FUNCTIONS"]) == {row["function"] for part in VECTORS.values() for row in part}


@pytest.mark.parametrize("size", JIS_BLADES_MM)
def test_a_blade_of_jis_b_9012_is_a_hair_over_its_number(size: int) -> None:
    # JIS B 9012:2000, Table 1.
    assert JIS_BLADES_MM[size] - browser_only.blade_mm(browser_only.metric_needle(size)) == pytest.approx(0.02)


@pytest.mark.parametrize("needle", NEEDLES)
def test_needle_numbers_pair_both_ways(needle: object) -> None:
    assert browser_only.metric_needle(needle.american) == needle.metric
    assert browser_only.american_needle(needle.metric) == needle.american


def test_a_needle_size_that_is_not_made_names_the_nearest() -> None:
    with pytest.raises(ValueError, match="92 is no metric needle size in the table: the nearest is 90"):
        browser_only.american_needle(92)


def test_belt_pitches_are_those_of_iso_5296() -> None:
    # ISO 5296; the inch pitches behind them are 0.080, 1/5, 3/8 and 1/2 in (from memory).
    inches = {"MXL": "0.080 in", "XL": "1/5 in", "L": "3/8 in", "H": "1/2 in"}
    assert {code: Quantity.parse(text).number("mm") for code, text in inches.items()} == pytest.approx(BELT_PITCH_MM)


def test_a_safety_stitch_is_a_chainstitch_and_an_overedge() -> None:
    # ISO 4915.
    assert STITCH_TYPES[515] == "safety stitch (401 and 504)"
    assert STITCH_TYPES[301] == "lockstitch"


positive = st.floats(1e-3, 1e4)
systems = st.sampled_from(["tex", "denier", "cotton", "metric", "ticket"])


@given(positive)
def test_stitches_per_inch_and_length_are_each_others_inverse(value: float) -> None:
    assert reckon.stitches_per_inch(reckon.stitch_length(value)) == pytest.approx(value)
    assert reckon.stitches_per_inch(value) == pytest.approx(2.54 * browser_only.stitches_per_cm(value))


@given(positive, systems, systems)
def test_a_thread_size_converts_there_and_back(value: float, one: str, other: str) -> None:
    assert browser_only.thread_size(browser_only.thread_size(value, one, other), other, one) == pytest.approx(value)


@given(positive)
def test_tex_and_denier_agree_with_the_units_of_quantities(value: float) -> None:
    assert browser_only.thread_size(value, "tex", "denier") == pytest.approx(Quantity.parse(f"{value:f} tex").number("den"), rel=1e-3)


@given(positive, positive, systems, systems)
def test_a_finer_thread_is_finer_in_every_system(one: float, other: float, given_in: str, wanted: str) -> None:
    counts = ("cotton", "metric", "ticket")
    same_way = (given_in in counts) == (wanted in counts)
    converted = [browser_only.thread_size(value, given_in, wanted) for value in sorted((one, other))]
    assert converted == sorted(converted, reverse=not same_way)


@given(positive)
def test_a_ticket_number_is_three_times_the_metric_count(tex: float) -> None:
    """Practice of the trade for synthetic thread, from memory."""
    assert browser_only.thread_size(tex, "tex", "ticket") == pytest.approx(3 * browser_only.thread_size(tex, "tex", "metric"))


@given(st.integers(1, 500), st.integers(2, 9))
def test_plies_of_a_count_weigh_together_what_plies_of_its_tex_do(count: int, plies: int) -> None:
    for system in ("cotton", "metric", "denier"):
        together = browser_only.thread_size(browser_only.whole_thread(count, plies, system), system, "tex")
        assert together == pytest.approx(plies * browser_only.thread_size(count, system, "tex"))


@pytest.mark.parametrize(
    ("text", "system", "says"),
    [
        ("14", "metric", "14 is no metric needle size: as the older American one it is 90/14."),
        ("90", "american", "90 is no older American needle size: as the metric one it is 90/14."),
        ("80/14", "metric", "80 goes with 12, not with 14: read the packet again."),
    ],
)
def test_a_wrong_needle_number_is_told_what_it_may_be(text: str, system: str, says: str) -> None:
    with pytest.raises(ValueError) as told:
        browser_only.needle_pair(text, system)
    assert str(told.value) == says
