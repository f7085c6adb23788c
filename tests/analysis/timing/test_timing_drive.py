"""Gears, belts, feed and motor against handbook rules, worked examples and root finding."""

from __future__ import annotations

import re
from math import cos, radians
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.differentiate import derivative
from scipy.optimize import brentq
from scipy.spatial import ConvexHull

from generator.analysis.timing.belts import belt_length, centre_distance, motor_speed
from generator.analysis.timing.feed import Dog, dragged, one_turn, play_as_feed, reverse_match
from generator.analysis.timing.gears import MODULES, PITCHES, candidates, outside_diameter, shaft_distance
from generator.analysis.timing.needle_bar import Bar, rise
from tests.vectors.browser_only import differential, from_ten

HOUSEHOLD = Bar(32, 46)
dogs = st.builds(lambda stitch, lift, share: Dog(stitch, lift, lift * share), st.floats(1, 6), st.floats(2, 4), st.floats(0.1, 0.5))


def test_outside_diameters_are_the_handbooks() -> None:
    # Full-depth spur gears: OD = (N + 2) / P inch, m (z + 2) mm (any machine handbook). Worked: 30 teeth of pitch 8 measure 4 in.
    assert outside_diameter(25.4 / 8, 30) == pytest.approx(4 * 25.4)
    assert outside_diameter(1.5, 20) == pytest.approx(33)
    # Helical: the pitch diameter is m z / cos b. Worked for 45 degrees: 1 x 20 x 1.41421 + 2.
    assert outside_diameter(1, 20, 45) == pytest.approx(30.2843, abs=1e-4)


@given(st.sampled_from([*MODULES, *(25.4 / p for p in PITCHES)]), st.integers(8, 80), st.sampled_from([0.0, 30.0, 45.0]))
def test_a_gear_is_the_first_candidate_for_its_own_diameter(module: float, teeth: int, helix: float) -> None:
    best = candidates(outside_diameter(module, teeth, helix), teeth, helix)[0]
    assert best.module == pytest.approx(module)
    assert best.error == pytest.approx(0, abs=1e-9)


def test_candidates_say_how_far_off_they_are_best_first() -> None:
    found = candidates(17.4, 14, 45)
    assert [abs(c.error) for c in found] == sorted(abs(c.error) for c in found)
    for c in found:
        assert c.outside + c.error == pytest.approx(17.4)


def test_shafts_stand_half_the_pitch_diameters_apart() -> None:
    # (N1 + N2) / (2 P) inch: 20 and 40 teeth of pitch 10 are 3 in apart (any machine handbook).
    assert shaft_distance(2.54, (20, 40)) == pytest.approx(3 * 25.4)
    assert shaft_distance(1, (14, 28), (45, 45)) == pytest.approx(21 / cos(radians(45)))


@given(st.floats(60, 400), st.floats(10, 60), st.floats(0, 50))
def test_a_belts_length_and_its_centre_distance_come_back(centres: float, smaller: float, more: float) -> None:
    length = belt_length(centres, smaller + more, smaller)
    assert centre_distance(length, smaller + more, smaller) == pytest.approx(centres, rel=1e-9)


def test_a_belt_round_equal_pulleys_is_two_spans_and_a_turn() -> None:
    # Worked: 100 teeth of XL (5.08 mm, ISO 5296) round two pulleys of 20: (508 - 20 x 5.08) / 2.
    assert centre_distance(508, 20 * 5.08 / np.pi, 20 * 5.08 / np.pi) == pytest.approx(203.2)


@pytest.mark.parametrize(("centres", "larger", "smaller"), [(100, 60, 20), (45, 80, 12), (300, 30, 30)])
def test_a_belt_is_as_long_as_the_outline_of_its_pulleys(centres: float, larger: float, smaller: float) -> None:
    """An open belt is the convex hull of its two circles, which scipy finds of so many points on them."""
    turn = np.linspace(0, 2 * np.pi, 20_000)
    circle = np.column_stack([np.cos(turn), np.sin(turn)])
    hull = ConvexHull(np.vstack([circle * larger / 2, circle * smaller / 2 + [centres, 0]]))
    assert belt_length(centres, larger, smaller) == pytest.approx(hull.area, rel=1e-6)  # in a plane the "area" is the way round


def test_a_belt_that_does_not_go_round_is_refused() -> None:
    with pytest.raises(ValueError, match="does not go round"):
        centre_distance(50, 40, 20)
    with pytest.raises(ValueError, match="within each other"):
        belt_length(10, 40, 20)
    assert belt_length(10.01, 40, 20) == pytest.approx(40 * np.pi, rel=1e-3)  # just free of each other: round the larger


@given(dogs)
def test_the_dog_is_level_with_the_plate_where_said_and_carries_a_stitch_between(dog: Dog) -> None:
    assert dog.height(dog.half) == pytest.approx(0, abs=1e-9)
    assert dog.half == pytest.approx(brentq(dog.height, 1e-9, 180), abs=1e-6)
    assert dog.along(dog.half) - dog.along(-dog.half) == pytest.approx(dog.stitch)
    assert (dog.height(0), dog.height(180)) == pytest.approx((dog.above, dog.above - dog.lift))
    assert (dog.along(77), dog.height(77)) == pytest.approx((dog.along(437), dog.height(437)))


@given(dogs, st.floats(10, 25), st.floats(-3, 5))
def test_a_turn_is_where_root_finding_has_needle_and_dog_at_the_plate(dog: Dog, depth: float, sinking: float) -> None:
    turn = one_turn(HOUSEHOLD, depth, dog, sinking)
    assert turn.leaves == pytest.approx(brentq(lambda a: rise(HOUSEHOLD, a) - depth, 0, 180), abs=1e-6)
    assert turn.enters == pytest.approx(brentq(lambda a: rise(HOUSEHOLD, a) - depth, 180, 360), abs=1e-6)
    assert rise(HOUSEHOLD, turn.sinks) - depth == pytest.approx(sinking, abs=1e-6)
    assert dog.height(turn.emerges - turn.highest) == pytest.approx(0, abs=1e-9)


def test_a_late_dog_pulls_at_the_needle_by_what_is_left_of_its_run() -> None:
    dog = Dog(4, 3, 1)
    turn = one_turn(HOUSEHOLD, 18, dog, 1.5)
    room = turn.enters - turn.sinks
    assert dragged(dog, turn, room - 0.01) == 0
    # Summed in small steps from the needle's entry to the teeth's sinking.
    late = room + 15
    steps = np.linspace(turn.enters, turn.sinks + late, 2001)
    along = [dog.along(a - turn.highest - late) for a in steps]
    assert dragged(dog, turn, late) == pytest.approx(np.abs(np.diff(along)).sum(), rel=1e-6)


def test_play_is_worth_what_the_dog_does_meanwhile() -> None:
    dog = Dog(4, 3, 1)
    slope = float(derivative(np.vectorize(dog.along), 0.0, initial_step=0.5).df)  # mm for a degree, where it goes fastest
    assert play_as_feed(0.1, 12, dog) == pytest.approx(slope * np.degrees(0.1 / 12), rel=1e-6)


def test_stitches_measured_on_a_scrap() -> None:
    assert from_ten(25.4) == 2.54  # ten to the inch, exactly
    match = reverse_match(30, 31.5)
    assert (match.apart, match.share) == pytest.approx((0.15, 0.05))
    assert differential(6, 3) == 2
    with pytest.raises(ValueError, match="more than nothing"):
        differential(3, 0)


def test_a_motors_speed_is_in_the_ratio_of_the_pulleys() -> None:
    # Worked: an industrial motor of 2850 turns with a pulley of 110 mm on a wheel of 70 mm sews 4479 stitches.
    assert motor_speed(4479, 70, 110) == pytest.approx(2850, abs=1)


def test_the_guides_table_is_reckoned() -> None:
    guide = (Path(__file__).parents[3] / "content" / "guides" / "motor-and-pedal-figures.md").read_text("utf-8")
    rows = re.findall(r"^\| (\d+) V \| (\d+) W \| ([\d.]+) A \| (\d+) Ω \|$", guide, re.M)
    assert len(rows) == 4
    for volts, watts, current, ohms in rows:
        # Ohm's law: I = P / V, and V^2 / P would be the whole resistance of a load that makes no voltage of its own.
        assert float(current) == pytest.approx(float(watts) / float(volts), abs=0.005)
        assert float(ohms) == round(float(volts) ** 2 / float(watts))
