"""The needle bar's slider-crank."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from tests.vectors.plain_crank import (
    slider_crank,
    slider_crank_angle,
    slider_crank_rise,
)


def test_the_worked_example() -> None:
    # Worked example of the slider-crank: r 3, L 7, 40 degrees.
    assert slider_crank(3, 7, 40) == pytest.approx(9.0273, abs=5e-5)


def test_the_rise_is_measured_from_bottom_dead_centre() -> None:
    # Worked: 3 + 7 - 9.0273.
    assert slider_crank_rise(6, 7, 0) == 0
    assert slider_crank_rise(6, 7, 40) == pytest.approx(0.9727, abs=5e-5)
    assert slider_crank_rise(6, 7, 180) == pytest.approx(6)


def test_timing_rises_come_soon_after_bottom_dead_centre() -> None:
    # Needle-bar rise at hook timing about 1.8 to 2.5 mm: common practice, from memory. Stroke and rod invented.
    low, high = slider_crank_angle(32, 46, 1.8), slider_crank_angle(32, 46, 2.5)
    assert 15 < low < high < 35


strokes = st.floats(5, 60)
rods = st.floats(1.05, 5)


@given(strokes, rods, st.floats(0, 360))
def test_the_rod_keeps_its_length(stroke: float, ratio: float, angle: float) -> None:
    crank, rod = stroke / 2, stroke / 2 * ratio
    along, across = crank * cos(radians(angle)), crank * sin(radians(angle))
    assert hypot(slider_crank(crank, rod, angle) - along, across) == pytest.approx(rod)


@given(strokes, rods, st.floats(0, 180), st.floats(0, 180))
def test_the_bar_rises_all_the_way_up(stroke: float, ratio: float, one: float, other: float) -> None:
    assume(abs(one - other) > 0.01)
    early, late = sorted((one, other))
    rod = stroke / 2 * ratio
    assert 0 <= slider_crank_rise(stroke, rod, early) < slider_crank_rise(stroke, rod, late) <= stroke * (1 + 1e-12)


@given(strokes, rods, st.floats(0, 180))
def test_it_falls_as_it_rose(stroke: float, ratio: float, angle: float) -> None:
    rod = stroke / 2 * ratio
    assert slider_crank_rise(stroke, rod, 360 - angle) == pytest.approx(slider_crank_rise(stroke, rod, angle), abs=1e-9)


@given(strokes, rods, st.floats(0.02, 0.98))
def test_the_inverse_agrees_with_a_root_finder(stroke: float, ratio: float, share: float) -> None:
    # Oracle: scipy's brentq on the rise itself.
    rod, rise = stroke / 2 * ratio, stroke * share
    found = brentq(lambda angle: slider_crank_rise(stroke, rod, angle) - rise, 0, 180)
    assert slider_crank_angle(stroke, rod, rise) == pytest.approx(found, abs=1e-6)


@given(strokes)
def test_with_a_very_long_rod_the_bar_moves_as_a_sine(stroke: float) -> None:
    for angle in (20, 90, 140):
        rise = slider_crank_rise(stroke, stroke * 1e5, angle)
        assert rise == pytest.approx(stroke / 2 * (1 - cos(radians(angle))), rel=1e-4)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: slider_crank_rise(32, 16, 10), "must be longer than the crank"),
        (lambda: slider_crank_rise(0, 46, 10), "both more than zero"),
        (lambda: slider_crank_angle(32, 46, 33), "cannot rise by 33"),
    ],
)
def test_what_cannot_turn_is_refused(call: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()


def test_at_the_bottom_the_angle_is_none_also_where_rounding_takes_the_cosine_over_one() -> None:
    """A stroke of 0.9 in and a rod of 1.6 in; by floating point the cosine is over 1 by its last digit."""
    assert slider_crank_angle(0.9, 1.6, 0) == 0


def test_a_crank_may_be_shorter_than_one_of_its_unit() -> None:
    """Lengths in inches; at right angles the rod is the longer side of a right triangle."""
    assert slider_crank(0.3, 0.5, 90) == pytest.approx(0.4)
