"""Flats on shafts and the turns that clear them."""

from math import sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.analysis.fasteners import flats


@pytest.mark.parametrize(
    ("radius", "chord", "depth"),
    # Sagitta of a chord, textbook examples.
    [(10, 12, 2), (15, 20, 3.82)],
)
def test_flat_depth_is_the_sagitta(radius: float, chord: float, depth: float) -> None:
    assert flats.flat_depth(2 * radius, chord) == pytest.approx(depth, abs=5e-3)


@pytest.mark.parametrize(
    ("shaft", "key", "s"),
    # ANSI B17.1, depth control values S for square keys (key widths from memory): S = D - y - H/2,
    # where y is the depth of a flat as wide as the key.
    [(0.5, 0.125, 0.430), (0.625, 0.1875, 0.517), (1.0, 0.25, 0.859), (1.25, 0.25, 1.112)],
)
def test_keyseat_depths_of_ansi_b17_1_follow(shaft: float, key: float, s: float) -> None:
    assert shaft - flats.flat_depth(shaft, key) - key / 2 == pytest.approx(s, abs=6e-4)


def test_one_to_one_and_a_half_turns_clear_the_flat_of_an_older_gear() -> None:
    # Common practice, no source: a screw on such a flat is clear after one to one and a half turns and is given two. 10-32 on an 8 mm shaft, 4 mm flat.
    turns = flats.whole_quarters(flats.turns_to_clear(flats.flat_depth(8, 4), 25.4 / 32))
    assert 1 <= turns <= 1.5
    assert flats.safe_turns(turns) == 2


def test_turns_are_depth_and_margin_over_pitch() -> None:
    assert flats.turns_to_clear(0.5, 0.7, 0.2) == pytest.approx(1.0)
    assert flats.turns_to_clear(0, 0.7, 0) == 0


@pytest.mark.parametrize(
    ("turns", "says"),
    [
        (0.2, "Clear of the flat after a quarter of a turn. Give it two turns, or take it right out if in doubt."),
        (0.51, "Clear of the flat after three quarters of a turn. Give it two turns, or take it right out if in doubt."),
        (1.0, "Clear of the flat after one turn. Give it two turns, or take it right out if in doubt."),
        (1.2, "Clear of the flat after one and a quarter turns. Give it two turns, or take it right out if in doubt."),
        (2.0, "Clear of the flat after two turns. Give it three turns, or take it right out if in doubt."),
        (13.4, "Clear of the flat after 13 and a half turns. Give it 14 turns, or take it right out if in doubt."),
    ],
)
def test_advice_reads_as_it_is_said(turns: float, says: str) -> None:
    assert flats.advice(turns) == says


diameters = st.floats(1, 60)
shares = st.floats(0.01, 1)


@given(diameters, st.floats(0.01, 0.5))
def test_width_and_depth_are_each_others_inverse(diameter: float, share: float) -> None:
    depth = diameter * share
    assert flats.flat_depth(diameter, flats.flat_width(diameter, depth)) == pytest.approx(depth, rel=1e-6)


@given(diameters, shares, shares)
def test_a_wider_flat_is_deeper(diameter: float, one: float, other: float) -> None:
    narrow, wide = sorted((one, other))
    assume(wide > narrow * 1.001)
    assert flats.flat_depth(diameter, diameter * narrow) < flats.flat_depth(diameter, diameter * wide)


@given(diameters, shares)
def test_the_edges_of_the_flat_lie_on_the_shaft(diameter: float, share: float) -> None:
    radius, width = diameter / 2, diameter * share
    height = radius - flats.flat_depth(diameter, width)
    assert sqrt(height**2 + (width / 2) ** 2) == pytest.approx(radius)


@given(diameters)
def test_a_flat_as_wide_as_the_shaft_goes_to_the_middle(diameter: float) -> None:
    assert flats.flat_depth(diameter, diameter) == pytest.approx(diameter / 2)


@given(st.floats(0, 40))
def test_quarters_round_up_and_by_less_than_one(turns: float) -> None:
    quarters = flats.whole_quarters(turns)
    assert (quarters * 4).is_integer()
    assert turns - 1e-9 <= quarters < turns + 0.25
    assert flats.safe_turns(turns) > quarters or flats.safe_turns(turns) == 2 > quarters


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: flats.flat_depth(8, 8.5), "A flat 8.5 wide does not go on a shaft 8 thick"),
        (lambda: flats.flat_depth(0, 1), "diameter must be more than zero"),
        (lambda: flats.flat_depth(8, -1), "width must be more than zero"),
        (lambda: flats.flat_depth(float("nan"), 1), "diameter must be more than zero"),
        (lambda: flats.flat_width(8, 4.1), "past the middle of a shaft 8 thick"),
        (lambda: flats.turns_to_clear(1, 0), "pitch must be more than zero"),
        (lambda: flats.turns_to_clear(-1, 1), "zero or more"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(call: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
