"""The pieces that every picture is drawn with. Classes only: the style sheet has the colours."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Sequence
from html import escape

from generator.diagrams import text
from generator.diagrams.layout import Graph, Layout, Point

Href = Callable[[str], str | None]
"The address for an id; None where there is no page."

MARGIN = 8.0
"Around every picture, px; the focus ring needs it."
PAD = 8.0
"Between the side of a box and its text, px."
_ASCENT = 0.85
_ARROW = 9.0


def num(value: float) -> str:
    """A coordinate to a tenth of a px.

    >>> num(12.0), num(-0.04), num(3.25)
    ('12', '0', '3.2')
    """
    return f"{round(value, 1) + 0:.1f}".removesuffix(".0")


def _classes(*names: str) -> str:
    found = " ".join(name for name in names if name)
    return f' class="{found}"' if found else ""


def words(
    lines: Sequence[str], x: float, top: float, look: str = "", middle: bool = False, size: float = text.SIZE
) -> str:
    """Lines of text under one another, the first one's line box starting at `top`.

    `size` is `text.SIZE` or `text.SMALL`.
    """
    anchor = ' text-anchor="middle"' if middle else ""
    looks = _classes("small" if size == text.SMALL else "", look)
    lead = (text.LINE - size) / 2 + size * _ASCENT
    return "".join(
        f'<text{looks} x="{num(x)}" y="{num(top + number * text.LINE + lead)}"{anchor}>{escape(line)}</text>'
        for number, line in enumerate(lines)
    )


def _rect(x: float, y: float, width: float, height: float, look: str) -> str:
    """As a path, which says it in two thirds of the bytes: a large picture has a hundred."""
    return path(f"M{num(x)} {num(y)}h{num(width)}v{num(height)}H{num(x)}z", look)


def box(x: float, y: float, width: float, height: float, look: str = "") -> str:
    """A box with square corners."""
    return _rect(x, y, width, height, f"box {look}".strip())


def hit(x: float, y: float, width: float, height: float) -> str:
    """The unseen area of a link, which shows as a frame when the link has the focus."""
    return _rect(x, y, width, height, "hit")


def circle(centre: Point, radius: float, look: str = "") -> str:
    """A circle."""
    return f'<circle{_classes("event", look)} cx="{num(centre[0])}" cy="{num(centre[1])}" r="{num(radius)}"/>'


def path(data: str, look: str) -> str:
    """A path from its own commands."""
    return f'<path{_classes(look)} d="{data}"/>'


def lines(data: Iterable[str], look: str) -> str:
    """Lines of one look as one path: a picture has dozens."""
    joined = "".join(data)
    return path(joined, look) if joined else ""


def elbow(start: Point, end: Point, turn: float, lying: bool) -> str:
    """Path commands of a line with two right angles, turning at x = `turn`, or y if not `lying`."""
    if lying:
        return f"M{num(start[0])} {num(start[1])}H{num(turn)}V{num(end[1])}H{num(end[0])}"
    return f"M{num(start[0])} {num(start[1])}V{num(turn)}H{num(end[0])}V{num(end[1])}"


def curve(points: Sequence[Point]) -> str:
    """Path commands of a Bezier curve through Graphviz's control points."""
    first, *rest = (f"{num(x)} {num(y)}" for x, y in points)
    return f"M{first}C{' '.join(rest)}"


def arrow(points: Sequence[Point], look: str = "") -> str:
    """A curve with a head at its end."""
    (x0, y0), (x, y) = points[-2:]
    angle = math.atan2(y - y0, x - x0)
    left, right = (
        f"{num(x - _ARROW * math.cos(angle + turn))} {num(y - _ARROW * math.sin(angle + turn))}"
        for turn in (0.4, -0.4)
    )
    line = path(curve(points), f"line {look}".strip())
    return line + path(f"M{num(x)} {num(y)}L{left}L{right}Z", f"head {look}".strip())


def link(address: str | None, label: str, body: str, look: str = "") -> str:
    """A link around a piece of the picture, or a plain group without an address."""
    if not address:
        return f"<g{_classes(look)}>{body}</g>"
    name = escape(text.clean(label))
    return f'<a{_classes(look)} href="{escape(address)}" aria-label="{name}">{body}</a>'


def moved(points: Iterable[Point]) -> list[Point]:
    """Points of a layout, inside the picture's margin."""
    return [(x + MARGIN, y + MARGIN) for x, y in points]


def corners(layout: Layout, graph: Graph) -> list[Point]:
    """Top left corner of every node, inside the picture's margin."""
    places = zip(moved(layout.centres), graph.sizes, strict=True)
    return [(x - width / 2, y - height / 2) for (x, y), (width, height) in places]


def svg(prefix: str, title: str, description: str, size: Point, body: str) -> str:
    """The whole picture.

    `size` is that of the layout in px; the picture is shown at its natural size, so its type is as
    large as it was measured. It is a group, not an image, because an image would hide its links.
    `prefix` keeps the ids apart where a page has several pictures.
    """
    width, height = (math.ceil(side + 2 * MARGIN) for side in size)
    named = escape(prefix)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="hw-diagram" role="group"'
        f' width="{width}" height="{height}" viewBox="0 0 {width} {height}"'
        f' aria-labelledby="{named}-title {named}-desc">'
        f'<title id="{named}-title">{escape(text.clean(title))}</title>'
        f'<desc id="{named}-desc">{escape(text.clean(description))}</desc>{body}</svg>'
    )


_SIDE = re.compile(r'\b(width|height)="([0-9.]+)"')
_PAPER = (700.0, 945.0)
"""What an A4 sheet holds within its margins, in px of CSS: 96 to the inch."""


def scale_on_paper(picture: str) -> float:
    """By how much a picture shrinks to lie on one sheet; 1 where it fits as it is.

    >>> scale_on_paper('<svg width="350" height="1890">')
    0.5
    """
    sides = dict(_SIDE.findall(picture.partition(">")[0]))
    return min(1.0, _PAPER[0] / float(sides["width"]), _PAPER[1] / float(sides["height"]))


def standalone(picture: str, style: str) -> str:
    """A picture that carries its style sheet, for a file of its own."""
    head, rest = picture.split("<title", 1)
    return f"{head}<style>{escape(style, quote=False)}</style><title{rest}"
