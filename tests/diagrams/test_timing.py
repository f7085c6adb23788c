"""Timing drawings: what is drawn, measured back from the picture, is what the figures say."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.timing.feed import Dog, one_turn
from generator.analysis.timing.needle_bar import Bar, rise, row
from generator.diagrams.timing import feed_view, hook_view, needle_view, rise_plot
from generator.diagrams.timing.feed_view import Shown
from generator.diagrams.timing.hook_view import Instant
from generator.diagrams.timing.needle_view import Meeting, Position
from tests.diagrams.measuring import assert_sound, classed, places

MM = 96 / 25.4
"px of CSS to a mm of paper (CSS Values and Units)."


def numbers(element: ElementTree.Element) -> list[float]:
    return [float(n) for n in re.findall(r"-?[\d.]+", element.get("d", ""))]


def bar_px(root: ElementTree.Element, which: int) -> float:
    """Length of a scale bar, px."""
    return numbers(classed(root, "bar")[which])[5]


@settings(max_examples=30)
@given(st.floats(20, 40), st.floats(1.5, 4), st.floats(0.5, 3), st.floats(0.1, 2))
def test_curve_and_window_are_the_slider_crank(stroke: float, ratio: float, low: float, more: float) -> None:
    bar, high = Bar(stroke, stroke / 2 * ratio), low + more
    root = ElementTree.fromstring(rise_plot.svg(bar, low, high, "p"))
    far, tall = rise_plot.span(bar, high)
    flat = numbers(classed(root, "curve")[0])
    for degrees, (x, y) in enumerate(zip(flat[::2], flat[1::2], strict=True)):
        assert (x - rise_plot.LEFT) / rise_plot.WIDE * far == pytest.approx(degrees, abs=0.03)
        shown = (rise_plot.TOP + rise_plot.TALL - y) / rise_plot.TALL * tall
        assert shown == pytest.approx(rise(bar, degrees), abs=tall / 1000)
    window = classed(root, "window")[0]
    left = (float(window.get("x")) - rise_plot.LEFT) / rise_plot.WIDE * far
    right = left + float(window.get("width")) / rise_plot.WIDE * far
    assert (left, right) == pytest.approx((row(bar, low).degrees, row(bar, high).degrees), abs=0.05)


heights = st.floats(-1, 2)


@settings(max_examples=30)
@given(st.integers(60, 140), st.lists(heights, min_size=1, max_size=3), st.floats(0, 0.1), st.floats(0.01, 0.2))
def test_needle_point_and_gap_are_to_the_scale_that_is_drawn(needle: int, above: list[float], least: float, more: float) -> None:
    shown = [Position(str(n), 2.0, mm) for n, mm in enumerate(above)]
    root = ElementTree.fromstring(needle_view.svg(Meeting(needle, shown, (1.0, 1.8), (least, least + more)), "n"))
    mm, tenth = bar_px(root, 0), bar_px(root, 1)
    assert (mm / MM, tenth / MM) == pytest.approx((5, 5), rel=0.002)  # 5 : 1, and a tenth at 50 : 1
    eyes, points, blades = classed(root, "eye"), classed(root, "point"), classed(root, "needle")
    for eye, point, blade, height in zip(eyes, points, blades, above, strict=True):
        assert (float(eye.get("y")) - numbers(point)[1]) / mm == pytest.approx(height, abs=0.01)
        left, _, right, *_ = numbers(blade)
        assert (right - left) / mm == pytest.approx(needle / 100, abs=0.01)
    side = classed(root, "side")[0]
    wall = float(side.get("x")) + float(side.get("width"))
    drawn = [(numbers(classed(root, end)[0])[0] - wall) / tenth / 10 for end in ("near", "far")]
    assert drawn == pytest.approx([least, least + more], abs=0.001)


@settings(max_examples=20)
@given(st.integers(60, 140), st.lists(st.tuples(st.floats(0, 4), st.floats(-2, 2), st.floats(-0.5, 2)), min_size=1, max_size=3))
def test_instants_have_the_point_as_far_from_the_needle_as_said(needle: int, given_: list[tuple[float, float, float]]) -> None:
    root = assert_sound(hook_view.svg(needle, [Instant(25, *one) for one in given_], "i"))
    level = places(classed(root, "level")[0])[0][1]
    for eye, point, (_, past, above) in zip(classed(root, "eye"), classed(root, "point"), given_, strict=True):
        middle = float(eye.get("x")) + float(eye.get("width")) / 2
        tip, y = places(point)[0]
        assert (middle - tip) / (5 * MM) == pytest.approx(past, abs=0.012)  # it goes to the left
        assert y == level
        assert (float(eye.get("y")) - y) / (5 * MM) == pytest.approx(above, abs=0.012)


@settings(max_examples=15)
@given(st.floats(1.5, 6), st.floats(2, 4), st.floats(0.6, 1.2), st.floats(-3, 3))
def test_the_dogs_path_and_the_turn_are_to_scale(stitch: float, lift: float, above: float, sinking: float) -> None:
    bar, dog = Bar(32, 46), Dog(stitch, lift, above)
    turn = one_turn(bar, 18, dog, sinking)
    root = assert_sound(feed_view.svg(Shown(bar, 18, dog, turn, 20), "f"))
    larger, smaller = next(m.groups() for t in root.iter() if (m := re.match(r"(\d+) : (\d+)", t.text or "")))
    scale = int(larger) / int(smaller)
    xs, ys = zip(*places(classed(root, "path")[0]), strict=True)
    plate = places(classed(root, "plate")[0])[0][1]
    assert (max(xs) - min(xs)) / MM / scale == pytest.approx(dog.travel, rel=0.02)
    assert (plate - min(ys)) / MM / scale == pytest.approx(above, abs=0.03 + 0.1 / MM / scale)
    assert (max(ys) - min(ys)) / MM / scale == pytest.approx(lift, abs=0.03 + 0.1 / MM / scale)
    band = classed(root, "feeds")[0]
    emerges = (float(band.get("x")) - feed_view.LEFT) / feed_view.WIDE * 360
    sinks = emerges + float(band.get("width")) / feed_view.WIDE * 360
    assert (emerges, sinks) == pytest.approx((turn.emerges, turn.sinks), abs=0.2)
    peak, early = (_peak(places(classed(root, name)[0])) for name in ("dog-curve", "early"))
    assert peak - early == pytest.approx(20 / 360 * feed_view.WIDE, abs=2 * feed_view.STEP / 360 * feed_view.WIDE)


def _peak(curve: list[tuple[float, float]]) -> float:
    """Middle of a curve's highest places."""
    top = min(y for _, y in curve)
    highest = [x for x, y in curve if y == top]
    return sum(highest) / len(highest)


@pytest.mark.parametrize(
    "picture",
    [
        rise_plot.svg(Bar(32, 46), 1.8, 2.5, "p"),
        needle_view.svg(
            Meeting(90, [Position(t, 2.15, 1.4) for t in ("First-met", "Middle", "Last-met")], (1.0, 1.8), (0.05, 0.15)), "n"
        ),
        hook_view.moving(90, 2.15, 1.4, "m"),
    ],
)
def test_a_picture_holds_its_words_and_says_itself(picture: str) -> None:
    assert_sound(picture)
