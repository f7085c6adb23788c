import re
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.tree import Event, Gate
from generator.diagrams.fault_tree_svg import prepare
from generator.diagrams.layout import render_all

from .pictures import classed

ELBOW = re.compile(r"M([\d.]+) ([\d.]+)([HV])([\d.]+)[HV]([\d.]+)[HV]([\d.]+)$")

titles = st.text("no", min_size=1, max_size=30).map(lambda word: f"{word} {word}")
trees = st.recursive(
    titles.map(lambda title: Event(title, title)),
    lambda nodes: st.builds(
        lambda title, inputs: Gate(title, title, "any", tuple(inputs)), titles, st.lists(nodes, min_size=1, max_size=4)
    ),
    max_leaves=25,
)


def corners(data):
    """The four corners of an elbow, turned so that it runs from left to right."""
    x, y, way, turn, across, end = ELBOW.match(data).groups()
    x, y, turn, across, end = map(float, (x, y, turn, across, end))
    if way == "V":
        x, y = y, x
    return (x, y), (turn, y), (turn, across), (end, across)


def touch(first, second):
    """Whether an upright of one line meets an upright or a level of the other."""
    (_, _), (turn, low), (_, high), _ = first
    low, high = sorted((low, high))
    (start, y), (other, _), (_, across), (end, _) = second
    if abs(turn - other) < 1:
        bottom, top = sorted((y, across))
        return low - 1 < top and bottom < high + 1
    levels = ((start, other, y), (other, end, across))
    return any(left < turn < right and low - 1 < at < high + 1 for left, right, at in levels)


@given(st.lists(trees, min_size=2, max_size=5))
@settings(max_examples=60, deadline=None)
def test_lines_of_two_gates_never_meet(inputs):
    top = Gate("top", "Top", "any", tuple(inputs))
    drawn = render_all([prepare(top, prefix="t", href=str)])[0]
    lines = [path.get("d") for path in classed(drawn, "line")]
    elbows = [corners(data) for data in lines if ELBOW.match(data)]
    for first, second in combinations(elbows, 2):
        if first[0] != second[0]:
            assert not touch(first, second) and not touch(second, first)
