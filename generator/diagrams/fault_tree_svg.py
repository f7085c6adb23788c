"""A fault tree as a picture.

It stands, top event above, or lies, top event on the left, whichever is the narrower; a tree of more than
STANDING_LEAVES leaves always lies. So a wide tree grows down a phone's page and not off its side.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from generator.analysis.tree import Event, Gate, event_ids
from generator.diagrams import channels, draw, symbols, text
from generator.diagrams.draw import Href
from generator.diagrams.layout import Drawing, Graph, Layout, Point
from generator.diagrams.tree_cells import TreeCell, cells_of
from generator.diagrams.tree_plan import CHANNEL, NODE_GAP, TreePlan, plan

STANDING_LEAVES = 8
"Most leaves of a tree that may stand: with more, the lowest row is wider than any tree of usual depth lying."


def prepare(
    tree: Gate,
    *,
    prefix: str,
    href: Href,
    shares: Mapping[str, str] = {},
    lit: frozenset[str] = frozenset(),
) -> Drawing:
    """A fault tree ready to be laid out.

    `href` gives the address for an event's id and for a transfer's `symptom/gate`. `shares` are short
    texts by event id, such as "31 %". `lit` are the basic events of one cause: they stand out, and with
    them every gate that they bring about and the way from there to the top event. A subtree shared from
    another symptom's tree is a transfer: a triangle that leads there.

    >>> from generator.diagrams.layout import render_all
    >>> top = Gate("top", "Skips stitches", "any", (Event("bent", "Needle bent"), Event("worn", "Needle worn")))
    >>> picture, = render_all([prepare(top, prefix="t", href="{}/".format, shares={"bent": "31 %"})])
    >>> picture.count("<circle"), 'href="bent/"' in picture
    (2, True)
    """
    cells = cells_of(tree, shares, lit, lying=True)
    lying = _drawing(tree, plan(cells, lying=True), prefix, href)
    if sum(cell.is_leaf for cell in cells) > STANDING_LEAVES:
        return lying
    standing = plan(cells_of(tree, shares, lit, lying=False), lying=False)
    return replace(_drawing(tree, standing, prefix, href), other=lying)


def _drawing(tree: Gate, rooms: TreePlan, prefix: str, href: Href) -> Drawing:
    edges = tuple((cell.parent, number) for number, cell in enumerate(rooms.cells) if cell.parent is not None)
    graph = Graph(rooms.sizes(), edges, rooms.lying, rank_gap=CHANNEL, node_gap=NODE_GAP, tree=True)

    def render(layout: Layout) -> str:
        corners = draw.corners(layout, graph)
        cells = zip(rooms.cells, corners, strict=True)
        body = _lines(rooms, corners) + "".join(_cell(rooms, cell, corner, href) for cell, corner in cells)
        size = (layout.width, layout.height)
        return draw.svg(prefix, f"Fault tree: {tree.title}", _described(tree), size, body)

    return Drawing(graph, render)


def _described(tree: Gate) -> str:
    count = len(event_ids(tree))
    causes = "1 basic cause leads" if count == 1 else f"{count} basic causes lead"
    return f"{causes} through gates to the top event. The same tree is given as a list."


def _lines(rooms: TreePlan, corners: list[Point]) -> str:
    """All lines, from the middle of a gate's box under its symbol, the lit ones last so that they lie above the others."""
    inputs: dict[int, list[int]] = {}
    for number, cell in enumerate(rooms.cells):
        if cell.parent is not None:
            inputs.setdefault(cell.parent, []).append(number)
    branches = [
        channels.Branch(
            rooms.cells[gate].rank,
            _middle(rooms.gate_box(rooms.cells[gate], corners[gate])),
            tuple(rooms.entry(rooms.cells[number], corners[number]) for number in numbers),
        )
        for gate, numbers in inputs.items()
    ]
    turns = channels.turning(branches, CHANNEL, rooms.lying)

    def fans(lit: bool) -> Iterator[str]:
        """The lines to what is lit, or to the rest; those to a gate that is not lit itself end in its symbol."""
        for (gate, numbers), branch, turn in zip(inputs.items(), branches, turns, strict=True):
            cell, ends = rooms.cells[gate], [end for n, end in zip(numbers, branch.ends, strict=True) if rooms.cells[n].lit is lit]
            start = rooms.shield_centre(cell, corners[gate]) if lit and not cell.lit else branch.start
            if ends:
                yield draw.fan(start, ends, turn, rooms.lying)

    return draw.lines(fans(lit=False), "line") + draw.lines(fans(lit=True), "line lit")


def _middle(box: tuple[float, float, float, float]) -> Point:
    x, y, width, height = box
    return x + width / 2, y + height / 2


def _cell(rooms: TreePlan, cell: TreeCell, corner: Point, href: Href) -> str:
    if isinstance(cell.node, Event):
        return _leaf(rooms, cell, corner, href(cell.node.id))
    if cell.is_leaf:
        return _leaf(rooms, cell, corner, href(cell.node.transfer))
    return _gate(rooms, cell, corner)


def _look(cell: TreeCell, *more: str) -> str:
    return " ".join((*more, *(("lit",) if cell.lit else ())))


def _leaf(rooms: TreePlan, cell: TreeCell, corner: Point, address: str | None) -> str:
    """A basic event or a transfer, with its link. What is written in or under it comes last, as it is said."""
    centre = rooms.leaf_centre(cell, corner)
    x, top = rooms.leaf_words(cell, corner)
    middle = not rooms.lying
    if cell.is_transfer:
        symbol = symbols.transfer(centre, rooms.radius, rooms.lying, _look(cell))
        note = draw.words([cell.note], x, top + len(cell.lines) * text.LINE, "soft", middle, text.SMALL)
    else:
        symbol = draw.circle(centre, rooms.radius, _look(cell))
        note = symbols.share(centre, cell.note)
    body = draw.hit(*corner, *rooms.size(cell)) + symbol + draw.words(cell.lines, x, top, middle=middle) + note
    return draw.link(address, f"{cell.title}, {cell.note}" if cell.note else cell.title, body, _look(cell))


def _shield(rooms: TreePlan, cell: TreeCell, centre: Point) -> str:
    assert isinstance(cell.node, Gate)
    return symbols.gate(cell.node, centre, rooms.shield, rooms.lying, _look(cell))


def _gate(rooms: TreePlan, cell: TreeCell, corner: Point) -> str:
    box = rooms.gate_box(cell, corner)
    is_top = cell.parent is None
    x, y = _middle(box)
    top = y - len(cell.lines) * text.LINE / 2
    return (
        draw.box(*box, _look(cell, *(("top",) if is_top else ())))
        + draw.words(cell.lines, x, top, "strong" if is_top else "", middle=True)
        + _shield(rooms, cell, rooms.shield_centre(cell, corner))
    )
