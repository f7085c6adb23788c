"""Timing drawings: what is drawn, measured back from the picture, is what the figures say."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.motion import slider_crank_rise
from generator.analysis.timing.needle_bar import Bar, row
from generator.diagrams import text
from generator.diagrams.timing import needle_view, rise_plot
from generator.diagrams.timing.needle_view import Meeting, Position

SVG = "{http://www.w3.org/2000/svg}"


def classed(root: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [e for e in root.iter() if name in e.get("class", "").split()]


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
        rise = (rise_plot.TOP + rise_plot.TALL - y) / rise_plot.TALL * tall
        assert rise == pytest.approx(slider_crank_rise(bar.stroke, bar.rod, degrees), abs=tall / 1000)
    window = classed(root, "window")[0]
    left = (float(window.get("x")) - rise_plot.LEFT) / rise_plot.WIDE * far
    right = left + float(window.get("width")) / rise_plot.WIDE * far
    assert (left, right) == pytest.approx((row(bar, low).degrees, row(bar, high).degrees), abs=0.05)


heights = st.floats(-1, 3)


@settings(max_examples=30)
@given(st.integers(60, 140), st.lists(heights, min_size=1, max_size=3), st.floats(0, 0.1), st.floats(0.01, 0.2))
def test_needle_point_and_gap_are_to_the_scale_that_is_drawn(needle: int, above: list[float], least: float, more: float) -> None:
    places = [Position(str(n), 2.0, mm) for n, mm in enumerate(above)]
    root = ElementTree.fromstring(needle_view.svg(Meeting(needle, places, (1.0, 1.8), (least, least + more)), "n"))
    mm, tenth = bar_px(root, 0), bar_px(root, 1)
    eyes, points, blades = classed(root, "eye"), classed(root, "point"), classed(root, "needle")
    for eye, point, blade, height in zip(eyes, points, blades, above, strict=True):
        assert (float(eye.get("y")) - numbers(point)[1]) / mm == pytest.approx(height, abs=0.01)
        left, _, right, *_ = numbers(blade)
        assert (right - left) / mm == pytest.approx(needle / 100, abs=0.01)
    side = classed(root, "side")[0]
    wall = float(side.get("x")) + float(side.get("width"))
    drawn = [(numbers(classed(root, end)[0])[0] - wall) / tenth / 10 for end in ("near", "far")]
    assert drawn == pytest.approx([least, least + more], abs=0.001)


@pytest.mark.parametrize(
    "picture",
    [
        rise_plot.svg(Bar(32, 46), 1.8, 2.5, "p"),
        needle_view.svg(
            Meeting(90, [Position(t, 2.15, 1.4) for t in ("First-met", "Middle", "Last-met")], (1.0, 1.8), (0.05, 0.15)), "n"
        ),
    ],
)
def test_text_stays_in_the_picture_and_the_picture_says_itself_in_words(picture: str) -> None:
    root = ElementTree.fromstring(picture)
    wide, tall = float(root.get("width")), float(root.get("height"))
    for words in root.iter(f"{SVG}text"):
        size = text.SMALL if "small" in words.get("class", "") else text.SIZE
        long = text.width(words.text, size, "strong" in words.get("class", ""))
        start = float(words.get("x")) - (long / 2 if words.get("text-anchor") == "middle" else 0)
        assert start >= 0 and start + long <= wide, words.text
        assert 0 < float(words.get("y")) < tall
    assert "mm" in root.find(f"{SVG}desc").text
    assert len(picture.encode()) < 30_000
    assert not re.search(r"#[0-9a-f]{3,6}\b|style=", picture)
