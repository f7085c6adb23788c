"""A check flow as a picture: the first check on the left, what is seen above each box that it leads to."""

from __future__ import annotations

from dataclasses import dataclass

from generator.diagrams import channels, draw, flow_steps, text
from generator.diagrams.flow_steps import Name, Step, StepHref
from generator.diagrams.layout import Drawing, Graph, Layout, Point

DEPTH = 3
"Steps drawn one after another; what follows is only counted. Four ranks are about 600 px wide."

_CHANNEL, _NODE_GAP = 18.0, 10.0
_WIDTH = 134.0
_TEXT = _WIDTH - 2 * draw.PAD
_UNDER = 3.0
_OVERHANG = 1.0
"What the tail of a letter may stand out to the left, px."


@dataclass(frozen=True, slots=True)
class _FlowCell:
    """One box with what is seen before it."""

    rank: int
    parent: int | None
    seen: tuple[str, ...]
    lines: tuple[str, ...]
    note: str
    "Minutes."
    look: str
    "check, remedy, done, stop, beyond or more."
    address: str | None
    label: str

    @property
    def box_height(self) -> float:
        return (len(self.lines) + bool(self.note)) * text.LINE + draw.PAD

    @property
    def height(self) -> float:
        return len(self.seen) * text.LINE + (_UNDER if self.seen else 0) + self.box_height


def prepare(policy: Step, *, prefix: str, title: str, name: Name, href: StepHref, more: str) -> Drawing:
    """A check flow ready to be laid out.

    `title` is the symptom's. `name` and `href` give a title and an address for a kind ("check" or
    "remedy") and an id. A flow longer than DEPTH steps is cut, and the boxes that say how many steps
    follow lead to `more`, the address of the list.

    >>> from generator.diagrams.layout import render_all
    >>> policy = {"remedy": "needle", "opens": [], "minutes": 3, "cured_share": 1, "else": None}
    >>> flow = prepare(policy, prefix="f", title="Skips", name="{}: {}".format, href="{}/{}".format, more="#list")
    >>> ">3 min<" in render_all([flow])[0]
    True
    """
    cells = _cells(policy, name, href, more)
    edges = tuple((cell.parent, number) for number, cell in enumerate(cells) if cell.parent is not None)
    sizes = tuple((_WIDTH, cell.height) for cell in cells)
    graph = Graph(sizes, edges, lying=True, rank_gap=_CHANNEL, node_gap=_NODE_GAP, tree=True)
    about = f"{flow_steps.count(policy)} steps, drawn {DEPTH} deep. The whole flow is given as a list."

    def render(layout: Layout) -> str:
        corners = draw.corners(layout, graph)
        body = _lines(cells, corners) + "".join(map(_drawn, cells, corners))
        return draw.svg(prefix, f"Check flow: {title}", about, (layout.width, layout.height), body)

    return Drawing(graph, render)


def _cells(policy: Step, name: Name, href: StepHref, more: str) -> list[_FlowCell]:
    """All boxes from the first step on, outcomes in order."""
    cells: list[_FlowCell] = []

    def add(seen: str, step: Step | None, rank: int, parent: int | None) -> None:
        goes_on = step is not None and rank >= DEPTH and flow_steps.count(step) > 1
        title, note, look, address = _content(step, goes_on, name, href, more)
        label = ", ".join(filter(None, (seen, title, note)))
        lines, above = text.wrap(title, _TEXT), text.wrap(seen, _WIDTH - 2 * _OVERHANG, strong=True)
        cells.append(_FlowCell(rank, parent, above, lines, note, look, address, label))
        number = len(cells) - 1
        if step is not None and not goes_on:
            following = list(flow_steps.after(step))
            rare = [found for found in following if flow_steps.seldom(found)]
            for found in following:
                if found not in rare:
                    add(found.seen, found.then, rank + 1, number)
            if rare:
                cells.append(_rare(rank + 1, number, len(rare), more))

    add("", policy, 0, None)
    return cells


def _rare(rank: int, parent: int, count: int, more: str) -> _FlowCell:
    """One box for all that is seldom seen after a check."""
    seen, title = f"{count} other{'s' if count > 1 else ''}, seldom", "See the list"
    lines, above = text.wrap(title, _TEXT), text.wrap(seen, _WIDTH, strong=True)
    return _FlowCell(rank, parent, above, lines, "", "more", more, f"{seen}, {title}")


def _content(
    step: Step | None, goes_on: bool, name: Name, href: StepHref, more: str
) -> tuple[str, str, str, str | None]:
    """Title, minutes, look and address of a box."""
    if step is None:
        return flow_steps.DONE, "", "done", None
    if goes_on:
        return f"Goes on: {flow_steps.count(step)} more steps", "", "more", more
    title, address = flow_steps.title(step, name), flow_steps.address(step, href)
    return title, flow_steps.minutes(step), flow_steps.kind(step), address


def _middle(cell: _FlowCell, corner: Point) -> float:
    return corner[1] + cell.height - cell.box_height / 2


def _lines(cells: list[_FlowCell], corners: list[Point]) -> str:
    ends: dict[int, list[Point]] = {}
    for cell, corner in zip(cells, corners, strict=True):
        if cell.parent is not None:
            ends.setdefault(cell.parent, []).append((corner[0], _middle(cell, corner)))
    branches = [
        channels.Branch(cells[n].rank, (corners[n][0] + _WIDTH, _middle(cells[n], corners[n])), tuple(points))
        for n, points in ends.items()
    ]
    turns = channels.turning(branches, _CHANNEL, lying=True)
    return draw.lines((draw.fan(b.start, b.ends, turn, lying=True) for b, turn in zip(branches, turns, strict=True)), "line")


def _drawn(cell: _FlowCell, corner: Point) -> str:
    x, y = corner
    top = y + cell.height - cell.box_height
    inner = top + draw.PAD / 2
    body = (
        draw.hit(x, y, _WIDTH, cell.height)
        + draw.words(cell.seen, x + _OVERHANG, y)  # known to the style sheet by their place, before the box
        + draw.box(x, top, _WIDTH, cell.box_height, cell.look)
        + draw.words(cell.lines, x + draw.PAD, inner)
    )
    if cell.note:
        body += draw.words([cell.note], x + draw.PAD, inner + len(cell.lines) * text.LINE, "note")
    return draw.link(cell.address, cell.label, body)
