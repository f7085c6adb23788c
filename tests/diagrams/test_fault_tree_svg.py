"""Symbols: IEC 61025, from memory. Target size: WCAG 2.2, 2.5.8 (24 px)."""

import re
from xml.etree import ElementTree

import pytest

from generator.analysis.tree import Event, Gate
from generator.diagrams.draw import standalone
from generator.diagrams.fault_tree_svg import prepare
from generator.diagrams.layout import layout, render_all

from .pictures import (
    HOSTILE,
    OVERFLOWS,
    OVERLAPS,
    SMALLEST_TYPE,
    TITLES,
    classed,
    elements,
    heard,
    shown,
    tree,
)


def svg(top: Gate, prefix: str = "t", **more) -> str:
    return render_all([prepare(top, prefix=prefix, href="../{}/".format, **more)])[0]


def deep(inputs: int = 5, ranks: int = 3, name: str = "g") -> Gate:
    """A tree with `inputs` events at every gate of a chain and titles of every length."""
    events = tuple(Event(f"{name}{ranks}-{n}", TITLES[(n + ranks) % len(TITLES)]) for n in range(inputs))
    below = (deep(inputs, ranks - 1, name + "a"), deep(inputs, ranks - 1, name + "b")) if ranks else ()
    return Gate(f"{name}{ranks}", f"Gate of rank {ranks}", "any", events + below)


def test_each_kind_of_gate_has_its_symbol():
    shapes = {}
    for kind, k, label in (("any", 0, "or"), ("all", 0, "and"), ("at_least", 2, "2/3")):
        drawn = svg(tree("a", "b", "c", kind=kind, k=k))
        (gate,) = classed(drawn, "gate")
        assert kind in gate.get("class").split()
        assert label in [e.text for e in elements(drawn, "text")]
        shapes[kind] = gate.get("d")
    assert "A" in shapes["all"], "the AND gate has a round top"
    assert "Q" in shapes["any"] and "Q" in shapes["at_least"], "OR and vote have a hollow base"


def test_the_apex_of_a_gate_points_at_the_top_event():
    standing, lying = svg(tree("a", "b")), svg(deep())
    assert all("rotate" not in gate.get("transform") for gate in classed(standing, "gate"))
    assert all("rotate(-90)" in gate.get("transform") for gate in classed(lying, "gate"))


def test_a_basic_event_is_a_circle_with_its_share_and_a_link():
    drawn = svg(tree("Needle bent", "Needle worn"), shares={"e0": "31 %"})
    assert len(elements(drawn, "circle")) == 2
    assert "31 %" in [e.text for e in elements(drawn, "text")]
    assert [(a.get("href"), heard(a)) for a in elements(drawn, "a")] == [
        ("../e0/", "Needle bent 31 %"),
        ("../e1/", "Needle worn"),
    ]


def test_a_subtree_of_another_symptom_is_a_triangle_that_leads_there():
    shared = Gate("g", "Thread not controlled", "any", (Event("x"), Event("y")), transfer="thread-nest/g")
    drawn = svg(Gate("top", "Skips", "any", (Event("a"), shared)))
    (triangle,) = classed(drawn, "transfer")
    assert triangle.get("d").count("L") == 2
    assert [a.get("href") for a in elements(drawn, "a")] == ["../a/", "../thread-nest/g/"]
    assert "2causes" in shown(drawn)


def test_a_lit_cause_lights_only_what_it_brings_about():
    both = Gate("both", "Both", "all", (Event("a"), Event("b")))
    top = Gate("top", "Top", "any", (both, Event("c")))
    for lit, gates in ((frozenset("a"), 0), (frozenset("ab"), 2), (frozenset("c"), 1)):
        drawn = svg(top, lit=lit)
        assert sum("lit" in g.get("class") for g in classed(drawn, "gate")) == gates
        assert {a.get("href")[3:-1] for a in elements(drawn, "a") if "lit" in a.get("class", "")} == lit


def test_ids_are_unique_by_prefix_and_name_the_picture():
    first, second = (ElementTree.fromstring(svg(tree("a"), prefix=p)) for p in ("one", "two"))
    ids = [e.get("id") for root in (first, second) for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids)) == 4
    assert first.get("aria-labelledby").split() == ids[:2]
    assert first.get("role") == "group", "an image would hide its links from a screen reader"


@pytest.mark.parametrize("title", HOSTILE)
def test_hostile_text_shows_as_text(title, show):
    top = Gate(title, title, "any", (Event("e0", title), Event("e1", "plain")))
    drawn = svg(top, shares={"e0": "<b>"})
    page = show(drawn)
    assert page.evaluate("document.querySelectorAll('script, b, svg svg').length") == 0
    printed = re.sub(r"[\s\-\u202e\u202c\u200f\x00\x07\ufffe]", "", title)
    assert shown(drawn).count(printed) >= 2
    assert page.evaluate(OVERFLOWS) == []


TREES = {"few": tree(*TITLES[:4]), "many": tree(*TITLES), "shallow": deep(2, 1), "deep": deep(4, 3)}


@pytest.mark.parametrize("top", TREES.values(), ids=TREES)
def test_text_fits_and_stays_apart_in_a_browser_at_natural_size(top, show):
    shares = {f"e{n}": share for n, share in enumerate(("100 %", "<1 %", "31 %"))}
    page = show(svg(top, shares=shares))
    assert page.evaluate(OVERFLOWS) == []
    assert page.evaluate(OVERLAPS) == []
    assert page.evaluate(SMALLEST_TYPE) >= 11


@pytest.mark.parametrize("title", TITLES)
def test_a_link_is_named_by_its_whole_title_and_its_share(title, show):
    """The name as a browser's tools for accessibility work it out; a comma is only a pause."""
    page = show(svg(Gate("top", "Top", "any", (Event("e0", title), Event("e1", "Needle bent, or worn"))), shares={"e0": "31 %"}))
    name = re.compile(rf"{re.escape(title)},? 31 %")
    assert page.get_by_role("link").count() == 2
    assert page.get_by_role("link", name=name).count() == 1
    assert page.get_by_role("link", name="Needle bent, or worn", exact=True).count() == 1


def test_every_link_can_be_pressed_and_shows_the_focus(show):
    page = show(svg(deep(3, 1)))
    sizes = page.evaluate(
        """[...document.querySelectorAll('svg a path:not([class])')]
          .map(e => e.getBoundingClientRect()).map(b => [b.width, b.height])"""
    )
    assert sizes and all(min(size) >= 24 for size in sizes)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('svg a') !== null")
    focused = page.evaluate("(s => [s.stroke, s.strokeWidth])(getComputedStyle(document.querySelector('a:focus path:not([class])')))")
    assert focused[0] != "none" and focused[1] == "3px"


def test_only_titles_are_underlined_in_links(show):
    page = show(svg(tree("Needle bent"), shares={"e0": "31 %"}))
    page.add_style_tag(content=".md-typeset a { text-decoration: underline }")
    lines = page.evaluate("""[...document.querySelectorAll('svg a, svg a text')]
      .map(e => [e.textContent, getComputedStyle(e).textDecorationLine])""")
    assert lines == [["Needle bent 31 %", "none"], ["Needle bent ", "underline"], ["31 %", "none"]]


def test_no_colour_is_written_into_a_picture():
    drawn = svg(deep(), lit=frozenset({"g3-0"}))
    assert not re.search(r"#[0-9a-fA-F]{3,8}\b|rgb|hsl|\b(fill|stroke|style|color)=", drawn)


def test_a_tree_of_usual_depth_needs_little_scrolling_on_a_phone():
    three = deep(5, 2)
    width = int(ElementTree.fromstring(svg(three)).get("width"))
    assert width <= 700


def test_a_wide_tree_lies_and_a_small_one_takes_the_narrower_way():
    wide = prepare(tree(*TITLES), prefix="t", href=str)
    assert wide.graph.lying and wide.other is None
    small = prepare(tree("a", "b"), prefix="t", href=str)
    ways = [small, small.other]
    narrow = min(layout([w.graph for w in ways]), key=lambda laid: laid.width)
    assert int(ElementTree.fromstring(svg(tree("a", "b"))).get("width")) == pytest.approx(narrow.width + 16, abs=1)


def test_two_hundred_events_lay_out():
    events = [Event(f"e{n}", f"Cause number {n}") for n in range(200)]
    gates = tuple(Gate(f"g{n}", f"Group {n}", "any", tuple(events[n * 20 : n * 20 + 20])) for n in range(10))
    drawn = svg(Gate("top", "Top", "any", gates))
    assert len(elements(drawn, "a")) == 200


def test_the_same_tree_gives_the_same_bytes():
    assert svg(deep()) == svg(deep())


def test_a_picture_can_stand_in_a_file_of_its_own():
    alone = standalone(svg(tree("a")), ".x > .y { fill: red }")
    (style,) = elements(alone, "style")
    assert style.text == ".x > .y { fill: red }"
