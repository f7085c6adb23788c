import re
from itertools import combinations

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.tree import Event, Gate
from generator.diagrams.fault_tree_svg import prepare
from generator.diagrams.layout import render_all

from .measuring import ends
from .pictures import areas, classed

titles = st.text("no", min_size=1, max_size=30).map(lambda word: f"{word} {word}")
trees = st.recursive(
    titles.map(lambda title: Event(title, title)),
    lambda nodes: st.builds(
        lambda title, inputs: Gate(title, title, "any", tuple(inputs)), titles, st.lists(nodes, min_size=1, max_size=4)
    ),
    max_leaves=25,
)


Line = tuple[tuple[float, float], tuple[float, float]]


def fans(drawn: str) -> list[list[Line]]:
    """The straight lines of each gate, ends in order. A gate's first runs from the middle of its box, and no other does."""
    middles = {middle(box) for box in classed(drawn, "box")}
    found: list[list[Line]] = []
    for path in classed(drawn, "line"):
        for part in path.get("d").split("M")[1:]:
            start, *steps = re.findall(r"(?:^|[HV])[-\d. ]+", part)
            at = tuple(map(float, start.split()))
            if at in middles:
                found.append([])
            for step in steps:
                to = (float(step[1:]), at[1]) if step[0] == "H" else (at[0], float(step[1:]))
                found[-1].append(tuple(sorted((at, to))))
                at = to
    return found


def middle(box) -> tuple[float, float]:
    left, top, right, bottom = ends(box)
    return (left + right) / 2, (top + bottom) / 2


def touch(first: Line, second: Line, room: float = 1) -> bool:
    """Whether two lines along the axes come nearer than `room` px."""
    return all(max(a, c) < min(b, d) + room for (a, b), (c, d) in zip(zip(*first), zip(*second)))


@given(st.lists(trees, min_size=2, max_size=5))
@settings(max_examples=60, deadline=None)
def test_lines_of_two_gates_never_meet_and_those_of_one_reach_all_its_inputs(inputs):
    """Oracle for what hangs together: networkx.connected_components."""
    top = Gate("top", "Top", "any", tuple(inputs))
    drawn = render_all([prepare(top, prefix="t", href=str)])[0]
    drawn_fans = fans(drawn)
    assert len(drawn_fans) == len(classed(drawn, "gate"))
    for first, second in combinations(drawn_fans, 2):
        assert not any(touch(a, b) for a in first for b in second)
    for fan in drawn_fans:
        joined = networkx.Graph([(a, b) for a in fan for b in fan if touch(a, b, 0.01)])
        assert networkx.is_connected(joined)
    entered = {end for fan in drawn_fans for line in fan for end in line}
    boxes = [ends(shape) for shape in (*classed(drawn, "box"), *areas(drawn)) if "top" not in shape.get("class", "")]
    for left, top_, right, bottom in boxes:
        at_the_side, above = (left, (top_ + bottom) / 2), ((left + right) / 2, top_)
        assert at_the_side in entered or above in entered
