"""Pictures of parts and of settings. Order of settings in the example: common practice, no source."""

import re
from xml.etree import ElementTree

import networkx
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from generator.analysis.machine import MachinePart, MachineSetting
from generator.diagrams import parts_graph_svg, settings_svg
from generator.diagrams.layout import layout, render_all

from .pictures import (
    HOSTILE,
    OVERFLOWS,
    OVERLAPS,
    SMALLEST_TYPE,
    TITLES,
    classed,
    elements,
    shown,
)

PARTS = (
    MachinePart("needle"),
    MachinePart("cover"),
    MachinePart("gear", behind=("needle", "cover")),
    MachinePart("shaft", behind=("gear", "cover")),
)
SETTINGS = (
    MachineSetting("bar-height", disturbs=("hook-timing",)),
    MachineSetting("hook-timing", after=("bar-height",), disturbs=("hook-gap",)),
    MachineSetting("hook-gap", after=("hook-timing",)),
    MachineSetting("feed-timing", after=("hook-timing",), disturbs=("bar-height",)),
)


def parts(given=PARTS, name=str, href="../parts/{}/".format, **more):
    return parts_graph_svg.prepare(given, prefix="p", title="Hook", name=name, href=href, **more)


def order(given=SETTINGS, name=str, **more):
    return settings_svg.prepare(given, prefix="s", title="Hook", name=name, href="../settings/{}/".format, **more)


def drawn(drawing):
    return render_all([drawing])[0]


def test_every_part_is_a_box_with_its_link_and_note():
    picture = drawn(parts(notes={"gear": "12 min"}))
    assert [a.get("href") for a in elements(picture, "a")] == [f"../parts/{p.id}/" for p in PARTS]
    assert [e.text for e in classed(picture, "note")] == ["12 min"]


def test_a_part_without_a_page_has_no_link():
    picture = drawn(parts(href=lambda part: None))
    assert elements(picture, "a") == [] and "needle" in shown(picture)


def test_arrows_lead_to_what_stands_behind_and_leave_out_what_follows_from_others():
    assert parts().graph.edges == ((0, 2), (1, 2), (2, 3))


@st.composite
def machines(draw):
    size = draw(st.integers(2, 9))
    sets = [draw(st.sets(st.integers(0, n - 1)) if n else st.just(set())) for n in range(size)]
    return [MachinePart(f"p{n}", behind=tuple(f"p{b}" for b in sorted(before))) for n, before in enumerate(sets)]


@given(machines())
@effort(max_examples=60)
def test_arrows_are_the_transitive_reduction(machine):
    """Oracle: networkx.transitive_reduction."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(range(len(machine)))
    graph.add_edges_from((int(before[1:]), n) for n, part in enumerate(machine) for before in part.behind)
    assert set(parts(machine).graph.edges) == set(networkx.transitive_reduction(graph).edges)


def test_a_part_of_another_assembly_is_drawn_as_outside():
    picture = drawn(parts((MachinePart("gear", behind=("belt-cover",)),)))
    assert len(classed(picture, "outside")) == 1 and "beltcover" in shown(picture)


def test_made_before_is_solid_and_upsets_is_dashed():
    picture = drawn(order())
    lines = [path.get("class") for path in classed(picture, "line")]
    assert lines.count("line") == 3 + 1, "three, and one in the legend"
    assert lines.count("line dashed") == 3 + 1
    assert "ismadebefore" in shown(picture) and "upsetswhenitismadeagain" in shown(picture)


def test_what_is_made_first_stands_first_even_if_later_settings_upset_it():
    (laid,) = layout([order().graph])
    heights = [y for _, y in laid.centres]
    assert heights[0] < heights[1] < min(heights[2], heights[3])


def test_arrows_end_at_their_boxes(show):
    page = show(drawn(order()))
    ends = page.evaluate("""() => {
      const boxes = [...document.querySelectorAll('.box')].map(e => e.getBBox())
      return [...document.querySelectorAll('path.line')].slice(0, -2).map(e => e.getPointAtLength(e.getTotalLength()))
        .map(p => Math.min(...boxes.map(b =>
          Math.max(b.x - p.x, p.x - b.x - b.width, b.y - p.y, p.y - b.y - b.height))))
    }""")
    assert len(ends) == 6 and all(-1 < gap < 2 for gap in ends)


def test_the_narrower_of_standing_and_lying_is_drawn():
    row, column = [MachinePart(f"p{n}") for n in range(9)], [MachinePart("p0")]
    column += [MachinePart(f"p{n}", behind=(f"p{n - 1}",)) for n in range(1, 9)]
    for given_parts in (row, column):
        assert int(ElementTree.fromstring(drawn(parts(given_parts))).get("width")) < 200


LEGEND = {parts: ["comes off before"], order: ["is made before", "upsets when it is made again"]}
"The only texts outside boxes."


@pytest.mark.parametrize("picture", [parts, order])
def test_hostile_and_long_titles_show_as_text_that_fits(picture, show):
    for title in (*HOSTILE, *TITLES):
        svg = drawn(picture(name=lambda id: title))
        page = show(svg)
        assert page.evaluate("document.querySelectorAll('script').length") == 0
        assert page.evaluate(OVERFLOWS) == LEGEND[picture]
        assert page.evaluate(SMALLEST_TYPE) >= 11
        assert page.evaluate(OVERLAPS) == []


@pytest.mark.parametrize("picture", [parts, order])
def test_the_same_records_give_the_same_bytes_without_a_colour(picture):
    assert drawn(picture()) == drawn(picture())
    assert not re.search(r"#[0-9a-fA-F]{3,8}\b|rgb|hsl|\b(fill|stroke|style|color)=", drawn(picture()))
