"""Drawings beside the steps: measured back on paper they are the target's figures at the scale that they name."""

from __future__ import annotations

import re
from math import hypot, pi, sqrt
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.diagrams.gauges import gaps, heights, needles, pulleys, pulls, runs, screws
from generator.diagrams.gauges.needles import Blade
from generator.diagrams.gauges.pulleys import Drive
from generator.diagrams.gauges.screws import Seat
from generator.diagrams.gauges.sheet import Measure
from tests.diagrams.measuring import SVG, assert_sound, classed, ends, places

MM = 96 / 25.4
"px of CSS to a mm of paper (CSS Values and Units)."
lows, spreads = st.floats(0, 3), st.floats(0.01, 4)


def scale_said(root: ElementTree.Element) -> float:
    """The scale that the drawing names, as px for a mm of the machine."""
    larger, smaller = re.search(r"Drawn (\d+) : (\d+)", root.find(f"{SVG}desc").text).groups()
    return int(larger) / int(smaller) * MM


def measure(low: float, more: float, unit: str = "mm") -> Measure:
    return Measure("hook point", "scarf", low, low + more, unit, "feeler gauges")


@settings(max_examples=25)
@given(lows, spreads, st.sampled_from(["gap", "point-gap", "tooth-gap"]))
def test_a_gap_is_as_wide_as_its_target(low: float, more: float, shape: str) -> None:
    root = assert_sound(gaps.svg(measure(low, more), "g", shape))
    wall = ends(classed(root, "face")[0])
    for word, mm in (("least", low), ("most", low + more)):
        left, top, *_ = ends(classed(root, "body", word)[0])
        tip = min(y for x, y in places(classed(root, "body", word)[0]) if x == left) if shape == "point-gap" else top
        at = _edge(classed(root, "face")[0], tip) if shape == "tooth-gap" else wall[2]
        start = places(classed(root, "body", word)[0])[0][0] if shape == "tooth-gap" else left
        assert (start - at) / scale_said(root) == pytest.approx(mm, abs=0.16 / scale_said(root) + 1e-9)


def _edge(face: ElementTree.Element, y: float) -> float:
    """Where a leaning face stands at a height."""
    _, (x0, y0), (x1, y1), *_ = places(face)
    return x0 + (x1 - x0) * (y - y0) / (y1 - y0)


@settings(max_examples=25)
@given(st.floats(-2, 8), spreads, st.sampled_from(["height", "foot-height", "point-height", "eye-height", "teeth-height", "depth"]))
def test_a_height_stands_over_its_face_as_its_target(low: float, more: float, shape: str) -> None:
    root = assert_sound(heights.svg(measure(low, more), "h", shape))
    face = ends(classed(root, "face")[0])[1]
    for body, mm in zip(classed(root, "body"), (low, low + more), strict=True):
        _, top, _, bottom = ends(body)
        at = {"teeth-height": top, "depth": top, "eye-height": places(body)[-4][1]}.get(shape, bottom)
        sign = -1 if shape == "depth" else 1
        assert sign * (face - at) / scale_said(root) == pytest.approx(mm, abs=0.11 / scale_said(root))


@settings(max_examples=25)
@given(st.integers(60, 200), st.floats(1, 3), st.floats(0.1, 1.2), st.one_of(st.none(), st.floats(0.5, 2)))
def test_a_bar_rises_and_the_point_stays(metric: int, low: float, more: float, above: float | None) -> None:
    root = assert_sound(needles.rise(measure(low, more), Blade(metric, above), "r"))
    mm = scale_said(root)
    eyes = [float(e.get("y")) for e in classed(root, "eye")]
    assert [(eyes[0] - y) / mm for y in eyes[1:]] == pytest.approx([low, low + more], abs=0.01)
    for blade in classed(root, "needle"):
        left, _, right, _ = ends(blade)
        assert (right - left) / mm == pytest.approx(metric / 100, abs=0.012)
    points = [places(p)[0][1] for p in classed(root, "point")]
    if above is None:
        assert not points
    else:
        assert points[0] == points[1]
        assert (sum(eyes[1:]) / 2 - points[0]) / mm == pytest.approx(above, abs=0.012)


@settings(max_examples=25)
@given(st.integers(60, 200), st.floats(-0.5, 2), st.floats(0.1, 1))
def test_a_point_stands_over_the_eye_as_its_target(metric: int, low: float, more: float) -> None:
    root = assert_sound(needles.meeting(measure(low, more), Blade(metric, None), "m"))
    over = [float(e.get("y")) - places(p)[0][1] for e, p in zip(classed(root, "eye"), classed(root, "point"), strict=True)]
    assert [px / scale_said(root) for px in over] == pytest.approx([low, low + more], abs=0.012)


@settings(max_examples=25)
@given(st.floats(1, 60), st.floats(1, 80))
def test_the_band_of_a_spring_scale_is_its_target(low: float, more: float) -> None:
    root = assert_sound(pulls.svg(measure(low, more, "gf"), "p"))
    left, _, right, _ = ends(classed(root, "tube")[0])
    full = max(float(t.text) for t in root.iter(f"{SVG}text") if t.text.replace(".", "").isdigit())
    band = ends(classed(root, "band")[0])
    found = [(band[n] - left) / (right - left) * full for n in (0, 2)]
    assert found == pytest.approx([low, low + more], abs=0.11 / (right - left) * full * 2)


@settings(max_examples=15)
@given(st.floats(1, 8), st.floats(1, 8))
def test_a_belt_gives_as_its_target(low: float, more: float) -> None:
    root = assert_sound(pulls.give(measure(low, more), "b"))
    deep = [ends(classed(root, word)[0]) for word in ("least", "most")]
    assert [(d[3] - d[1]) / scale_said(root) for d in deep] == pytest.approx([low, low + more], abs=0.11 / scale_said(root))


def test_two_runs_end_within_their_difference() -> None:
    root = assert_sound(runs.svg(Measure("forward", "reverse", 0, 2, "mm"), 30, "r"))
    first = ends(classed(root, "run")[0])
    band = ends(classed(root, "band")[0])
    assert scale_said(root) == MM  # full size: a scrap can be laid on it
    assert (first[2] - first[0]) / MM == pytest.approx(30, abs=0.05)
    assert [(band[n] - first[0]) / MM for n in (0, 2)] == pytest.approx([28, 32], abs=0.05)


@settings(max_examples=15)
@given(st.integers(10, 40), st.integers(10, 40), st.sampled_from([2.032, 5.08, 9.525]))
def test_pulleys_have_their_teeth_on_their_pitch_circles(upper: int, lower: int, pitch: float) -> None:
    root = assert_sound(pulleys.svg(Drive(upper, lower, pitch, 360 / upper, 5.0), "t"))
    rims, strokes = classed(root, "rim"), classed(root, "teeth")
    for rim, stroke, teeth in zip(rims, strokes, (upper, lower), strict=True):
        # A pitch of belt to a tooth all the way round: D = z p / pi (any handbook of toothed belts).
        assert 2 * float(rim.get("r")) / scale_said(root) * pi == pytest.approx(teeth * pitch, rel=0.02)
        assert len(places(stroke)) == 2 * teeth


@settings(max_examples=25)
@given(st.floats(4, 16), st.floats(0.2, 0.8), st.sampled_from(["on the flat", "on the round", ""]), st.integers(1, 2))
def test_shaft_and_flat_share_a_scale_and_the_flat_is_under_the_right_screw(shaft: float, share: float, first: str, count: int) -> None:
    flat = shaft * share
    depth = (shaft - sqrt(shaft**2 - flat**2)) / 2  # the sagitta of a chord
    root = assert_sound(screws.svg(Seat(shaft, flat, depth, "10-32", 4.826, count, first, "two turns"), "s"))
    mm = scale_said(root)
    _, (x0, y0), (x1, y1), _ = (p for p in places(classed(root, "shaft")[0]))
    assert hypot(x1 - x0, y1 - y0) / mm == pytest.approx(flat, abs=0.3 / mm)
    number = {t.text: float(t.get("x")) for t in root.iter(f"{SVG}text") if t.text in ("1", "2")}
    seat = ends(classed(root, "on-flat")[0])
    if count == 1 or not first:
        assert not number
    else:
        assert number["2"] < number["1"]  # turning clockwise, the right-hand screw is ahead
        nearer = min(number, key=lambda n: abs(number[n] - (seat[0] + seat[2]) / 2))
        assert nearer == ("2" if "round" in first else "1")
