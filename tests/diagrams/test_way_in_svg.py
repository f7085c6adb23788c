"""What lies behind what: every line that is needed and no other, none over another, boxes in order under their lie."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.diagrams.way_in_svg import TakenOff, svg
from tests.diagrams.measuring import SVG, assert_sound, classed, ends, places

LIES = ("Upright", "On its back", "Tilted back")


@st.composite
def ways_in(draw) -> list[TakenOff]:
    """Parts in order, each behind some of those before it; the head turned now and then."""
    size = draw(st.integers(3, 12))
    title = st.text(alphabet="abcdefghij klm", min_size=1, max_size=60).filter(str.strip)
    lies = sorted(draw(st.lists(st.integers(0, 2), min_size=size, max_size=size)))
    behind = [draw(st.sets(st.integers(1, n), max_size=3)) if n else set() for n in range(size)]
    return [TakenOff(n + 1, draw(title), LIES[lies[n]], tuple(sorted(behind[n]))) for n in range(size)]


def rows(root: ElementTree.Element) -> dict[int, tuple[float, float]]:
    """Step -> top and bottom of its box."""
    found = {}
    for link in root.iter(f"{SVG}a"):
        _, top, _, bottom = ends(classed(link, "box")[0])
        found[int(link.get("href").removeprefix("#step-"))] = (top, bottom)
    return found


def at(found: dict[int, tuple[float, float]], y: float) -> int:
    return next(number for number, (top, bottom) in found.items() if top <= y <= bottom)


@settings(max_examples=40)
@given(ways_in())
def test_lines_lead_from_each_part_to_what_was_behind_it_and_never_lie_on_one_another(parts: list[TakenOff]) -> None:
    root = assert_sound(svg(parts, "w"))
    found = rows(root)
    assert list(found) == [part.number for part in parts]
    assert sorted(found.values()) == list(found.values())
    lines = [places(line) for line in classed(root, "line", "behind")]
    drawn = [(at(found, line[0][1]), at(found, line[-1][1])) for line in lines]
    assert sorted(drawn) == sorted((front, part.number) for part in parts for front in part.behind)
    uprights = sorted((line[1][0], line[1][1], line[2][1]) for line in lines)
    for (x, _, end), (other, start, _) in zip(uprights, uprights[1:]):
        assert x < other or end <= start


@settings(max_examples=20)
@given(ways_in())
def test_each_box_stands_under_the_lie_of_the_head(parts: list[TakenOff]) -> None:
    root = ElementTree.fromstring(svg(parts, "w"))
    headings = sorted((float(t.get("y")), t.text) for t in root.iter(f"{SVG}text") if t.text in LIES)
    for number, (top, _) in rows(root).items():
        above = [lie for y, lie in headings if y < top]
        assert above[-1] == parts[number - 1].lie


def test_it_says_itself_in_words() -> None:
    told = svg([TakenOff(1, "Cover", "Upright", ()), TakenOff(2, "Belt", "On its back", (1,)), TakenOff(3, "Gear", "On its back", (2,))], "w")
    assert re.search("1 Cover, upright. 2 Belt, on its back, behind Cover. 3 Gear, on its back, behind Belt.", told)
