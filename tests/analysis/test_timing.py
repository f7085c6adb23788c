"""Timing: closed forms against numbers found another way, worked values, limits."""

from __future__ import annotations

from math import radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.differentiate import derivative
from scipy.optimize import brentq

from generator.analysis.motion import slider_crank_rise
from generator.analysis.timing.belts import rise_when_off, tooth_at_hand_wheel
from generator.analysis.timing.hook import along_path, play_degrees, swing_rate_at_most
from generator.analysis.timing.needle_bar import Bar, rise_per_degree, rise_table, row
from generator.analysis.timing.swings import even_middle, swings

bars = st.builds(lambda stroke, ratio: Bar(stroke, stroke / 2 * ratio), st.floats(10, 50), st.floats(1.5, 6))
HOUSEHOLD = Bar(32, 46)


@given(bars, st.floats(2, 358))
def test_the_rate_is_the_derivative_of_the_rise(bar: Bar, degrees: float) -> None:
    rise = np.vectorize(lambda angle: slider_crank_rise(bar.stroke, bar.rod, angle))
    assert rise_per_degree(bar, degrees) == pytest.approx(float(derivative(rise, degrees, initial_step=0.5).df), rel=1e-6, abs=1e-8)


@given(bars, st.floats(0.05, 0.95))
def test_a_row_stands_where_root_finding_finds_its_rise(bar: Bar, share: float) -> None:
    found = row(bar, share * bar.stroke)
    there = brentq(lambda angle: slider_crank_rise(bar.stroke, bar.rod, angle) - share * bar.stroke, 0, 180)
    assert found.degrees == pytest.approx(there, abs=1e-6)


def test_a_very_long_rod_leaves_a_sine() -> None:
    # Textbook limit: without the rod's slant the slider moves as r (1 - cos a), and its rate is r sin a.
    assert rise_per_degree(Bar(30, 1e9), 40) == pytest.approx(radians(15 * sin(radians(40))), rel=1e-6)


@given(bars, st.floats(0, 360))
def test_a_full_turn_comes_back(bar: Bar, degrees: float) -> None:
    assert rise_per_degree(bar, degrees + 360) == pytest.approx(rise_per_degree(bar, degrees), abs=1e-9)


def test_the_table_has_both_ends_and_every_tenth_between() -> None:
    assert [r.rise for r in rise_table(HOUSEHOLD, 1.85, 2.1)] == pytest.approx([1.85, 1.9, 2.0, 2.1])
    assert [r.rise for r in rise_table(HOUSEHOLD, 2, 2)] == [2]


def test_a_tooth_is_the_pitch_angle_of_the_upper_pulley() -> None:
    # 360 / z degrees (belt makers' tables and any handbook); worked: z 18 -> 20, z 20 -> 18.
    assert (tooth_at_hand_wheel(18), tooth_at_hand_wheel(20)) == (20, 18)


@given(bars, st.floats(5, 20), st.floats(-20, 20))
def test_a_belt_put_back_is_as_it_was(bar: Bar, share: float, degrees: float) -> None:
    right = row(bar, bar.stroke * share / 100)
    off = rise_when_off(bar, right, degrees)
    assert off == pytest.approx(slider_crank_rise(bar.stroke, bar.rod, right.degrees + degrees))
    assert rise_when_off(bar, right, 0) == pytest.approx(right.rise, abs=1e-9)


def test_a_point_goes_round_its_circle_in_a_turn() -> None:
    assert along_path(18, 360) == pytest.approx(113.097, abs=1e-3)  # worked: 36 pi
    assert play_degrees(along_path(17, 3.5), 17) == pytest.approx(3.5)


def test_a_sine_swing_is_fastest_in_its_middle() -> None:
    angles = np.radians(np.linspace(0, 180, 18001))
    swing = 210 / 2 * (1 - np.cos(angles))
    assert swing_rate_at_most(210) == pytest.approx(np.max(np.diff(swing)) / 0.01, rel=1e-6)


@given(st.floats(0.5, 9), st.floats(0.3, 1.2))
def test_both_swings_are_reached_where_the_point_has_gone_half_the_width(width: float, per_degree: float) -> None:
    found = swings(HOUSEHOLD, row(HOUSEHOLD, 6), width, per_degree)
    first, last = (row(HOUSEHOLD, rise).degrees for rise in (found.rises[0], found.rises[2]))
    assert (last - first) * per_degree == pytest.approx(width)


@given(st.floats(1, 6), st.floats(0.1, 6))
def test_the_even_middle_has_both_swings_as_far_from_the_aim(aim: float, apart: float) -> None:
    middle = even_middle(HOUSEHOLD, aim, apart)
    early, late = (rise_when_off(HOUSEHOLD, middle, side * apart) for side in (-1, 1))
    assert aim - early == pytest.approx(late - aim, abs=1e-5)


def test_swings_too_far_apart_are_refused() -> None:
    with pytest.raises(ValueError, match="too far apart"):
        even_middle(HOUSEHOLD, 0.1, 30)
