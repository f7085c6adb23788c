"""Timing: closed forms against numbers found another way, worked values, limits."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.differentiate import derivative
from scipy.optimize import brentq, minimize_scalar

from generator.analysis.timing.belts import rise_when_off, tooth_at_hand_wheel
from generator.analysis.timing.hook import (
    Hook,
    Swinging,
    Turning,
    along_path,
    comes_to,
    play_degrees,
    point_at,
    swing_rate_at_most,
)
from generator.analysis.timing.needle_bar import Bar, coming_down, rise, rise_per_degree, rise_table, row
from generator.analysis.timing.swings import even_middle, swings
from tests.vectors.plain_crank import slider_crank_rise

straight = st.builds(lambda stroke, ratio: Bar(stroke, stroke / 2 * ratio), st.floats(10, 50), st.floats(1.5, 6))
bars = st.builds(
    lambda stroke, ratio, aside: Bar(stroke, stroke / 2 * ratio, stroke * aside), st.floats(10, 50), st.floats(2, 6), st.floats(-0.2, 0.2)
)
HOUSEHOLD = Bar(32, 46)
hooks = st.one_of(
    st.sampled_from([Turning(1), Turning(2), Turning(3)]), st.builds(Swinging, st.floats(100, 230), st.floats(10, 45))
)


@given(bars, st.floats(0, 360))
def test_the_bar_stands_where_a_rod_of_its_length_reaches_it(bar: Bar, degrees: float) -> None:
    """The triangle itself, solved by root finding: the pin on its circle, the bar on its line, the rod between."""
    crank = bar.crank
    turned = radians(crank.lowest + degrees)
    x, y = crank.radius * sin(turned), crank.radius * cos(turned)
    down = brentq(lambda at: np.hypot(x - bar.offset, at - y) - bar.rod, y, y + 1.01 * bar.rod)
    assert rise(bar, degrees) == pytest.approx(crank.furthest - down, abs=1e-6)


@given(bars)
def test_lowest_and_highest_are_the_ends_of_the_stroke(bar: Bar) -> None:
    lowest = minimize_scalar(lambda a: rise(bar, a), bounds=(-60, 60), method="bounded", options={"xatol": 1e-7})
    highest = minimize_scalar(lambda a: -rise(bar, a), bounds=(120, 240), method="bounded", options={"xatol": 1e-7})
    assert lowest.x == pytest.approx(0, abs=1e-3)
    assert -highest.fun - lowest.fun == pytest.approx(bar.stroke)
    assert highest.x == pytest.approx(bar.crank.highest, abs=1e-3)


@given(straight, st.floats(0, 360))
def test_without_an_offset_it_is_the_plain_slider_crank(bar: Bar, degrees: float) -> None:
    assert rise(bar, degrees) == pytest.approx(slider_crank_rise(bar.stroke, bar.rod, degrees), abs=1e-9)


@given(bars, st.floats(0, 360))
def test_an_offset_to_the_other_side_is_the_same_turned_the_other_way(bar: Bar, degrees: float) -> None:
    assert rise(Bar(bar.stroke, bar.rod, -bar.offset), -degrees) == pytest.approx(rise(bar, degrees), abs=1e-9)


@given(bars, st.floats(2, 358))
def test_the_rate_is_the_derivative_of_the_rise(bar: Bar, degrees: float) -> None:
    numeric = derivative(np.vectorize(lambda angle: rise(bar, angle)), degrees, initial_step=0.5)
    assert rise_per_degree(bar, degrees) == pytest.approx(float(numeric.df), rel=1e-6, abs=1e-8)


@given(bars, st.floats(0.05, 0.95))
def test_a_row_stands_where_root_finding_finds_its_rise(bar: Bar, share: float) -> None:
    up = brentq(lambda angle: rise(bar, angle) - share * bar.stroke, 0, bar.crank.highest)
    down = brentq(lambda angle: rise(bar, angle) - share * bar.stroke, bar.crank.highest, 360)
    assert row(bar, share * bar.stroke).degrees == pytest.approx(up, abs=1e-6)
    assert coming_down(bar, share * bar.stroke) == pytest.approx(down, abs=1e-6)


def test_a_rod_that_cannot_go_round_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot go round"):
        rise(Bar(32, 17, 5), 10)


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
    assert off == pytest.approx(rise(bar, right.degrees + degrees))
    assert rise_when_off(bar, right, 0) == pytest.approx(right.rise, abs=1e-9)


def test_a_point_goes_round_its_circle_in_a_turn() -> None:
    assert along_path(18, 360) == pytest.approx(113.097, abs=1e-3)  # worked: 36 pi
    assert play_degrees(along_path(17, 3.5), 17) == pytest.approx(3.5)


def test_a_sine_swing_is_fastest_in_its_middle() -> None:
    angles = np.radians(np.linspace(0, 180, 18001))
    swing = 210 / 2 * (1 - np.cos(angles))
    assert swing_rate_at_most(210) == pytest.approx(np.max(np.diff(swing)) / 0.01, rel=1e-6)


@given(hooks, st.floats(0, 60))
def test_the_rate_of_a_hook_is_its_derivative_and_a_turn_brings_it_back(hook: Hook, degrees: float) -> None:
    numeric = derivative(np.vectorize(hook.turned), degrees, initial_step=0.5)
    assert hook.rate(degrees) == pytest.approx(float(numeric.df), rel=1e-6, abs=1e-8)
    gone = hook.turned(degrees + 360) - hook.turned(degrees)
    assert gone == pytest.approx(360 * hook.turns if isinstance(hook, Turning) else 0, abs=1e-9)


@given(hooks, st.floats(12, 110), st.floats(20, 45), st.floats(-1, 4))
def test_where_a_point_comes_to_is_where_it_is(hook: Hook, radius: float, passing: float, along: float) -> None:
    there = comes_to(hook, radius, passing, along)
    assert point_at(hook, radius, passing, there) == pytest.approx(along, abs=1e-9)


def test_hooks_that_turn_once_twice_and_three_times_pass_a_zigzag_in_inverse_time() -> None:
    # Worked: half of 5 mm on a circle of 17 mm is 8.426 degrees of hook: 8.43, 4.21 and 2.81 of the hand wheel.
    middle = row(HOUSEHOLD, 2.15)
    found = [swings(HOUSEHOLD, middle, 5, Turning(turns), 17) for turns in (1, 2, 3)]
    assert [f.before for f in found] == pytest.approx([8.426, 4.213, 2.809], abs=1e-3)
    spread = [f.rises[2] - f.rises[0] for f in found]
    assert spread == sorted(spread, reverse=True)


@given(st.floats(0.5, 4), hooks, st.floats(14, 110))
def test_both_swings_are_reached_where_the_point_has_gone_half_the_width(width: float, hook: Hook, radius: float) -> None:
    found = swings(HOUSEHOLD, row(HOUSEHOLD, 6), width, hook, radius)
    first, last = (row(HOUSEHOLD, risen).degrees for risen in (found.rises[0], found.rises[2]))
    assert point_at(hook, radius, first, last) == pytest.approx(width)


@given(st.floats(1.5, 6), st.floats(0.5, 5), st.sampled_from([Turning(1), Turning(2), Turning(3), Swinging(210, 20)]))
def test_the_even_middle_has_both_swings_as_far_from_the_aim(aim: float, width: float, hook: Hook) -> None:
    at = swings(HOUSEHOLD, row(HOUSEHOLD, aim), width, hook, 17)
    middle = even_middle(HOUSEHOLD, aim, width, hook, 17)
    early, late = (rise_when_off(HOUSEHOLD, middle, by) for by in (-at.before, at.after))
    assert aim - early == pytest.approx(late - aim, abs=1e-5)


def test_swings_too_far_apart_are_refused() -> None:
    with pytest.raises(ValueError, match="too far apart"):
        even_middle(HOUSEHOLD, 0.1, 9, Turning(1), 17)
    with pytest.raises(ValueError, match="does not come"):
        swings(HOUSEHOLD, row(HOUSEHOLD, 2), 9, Swinging(40, 0), 10)
