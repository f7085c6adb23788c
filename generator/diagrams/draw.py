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
    """Lines of text under one another, the first one's line box starting at `top`, each at a whole px.

    `size` is `text.SIZE` or `text.SMALL`.
    """
    looks = _classes("small" if size == text.SMALL else "", look, "mid" if middle else "")
    lead = (text.LINE - size) / 2 + size * _ASCENT
    return "".join(
        f'<text{looks} x="{x:.0f}" y="{top + number * text.LINE + lead:.0f}">{escape(line)}</text>'
        for number, line in enumerate(lines)
    )


def _rect(x: float, y: float, width: float, height: float, look: str) -> str:
    """As a path, which says it in two thirds of the bytes: a large picture has a hundred."""
    return path(f"M{num(x)} {num(y)}h{num(width)}v{num(height)}H{num(x)}z", look)


def box(x: float, y: float, width: float, height: float, look: str = "") -> str:
    """A box with square corners."""
    return _rect(x, y, width, height, f"box {look}".strip())


def hit(x: float, y: float, width: float, height: float) -> str:
    """The unseen area of a link, which shows as a frame when the link has the focus.

    It alone has no class, and is known by that: a large picture has a hundred.
    """
    return _rect(x, y, width, height, "")


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


def fan(start: Point, ends: Sequence[Point], turn: float, lying: bool) -> str:
    """Path commands of lines from one point to several, turning at x = `turn`, or y if not `lying`.

    What they share is drawn once: a large tree has hundreds.

    >>> fan((0, 20), [(9, 10), (9, 20), (9, 40)], 5, lying=True)
    'M0 20H5M9 10H5V40H9M5 20H9'
    """
    over, along, across = ("V", 0, 1) if lying else ("H", 1, 0)
    on = "H" if lying else "V"
    first, *between, last = sorted(ends, key=lambda end: end[across]) if len(ends) > 1 else (*ends, *ends)
    stem = f"{_at(start)}{on}{num(turn)}"
    if first[across] < start[across] < last[across]:
        trunk = f"{stem}{_at(first)}{on}{num(turn)}{over}{num(last[across])}{on}{num(last[along])}"
    else:
        near, far = (first, last) if start[across] <= first[across] else (last, first)
        trunk = f"{stem}{over}{num(far[across])}{on}{num(far[along])}"
        between = [near, *between] if near != far else between
    return trunk + "".join(f"{_at(_turned(end, turn, along))}{on}{num(end[along])}" for end in between)


def _at(point: Point) -> str:
    return f"M{num(point[0])} {num(point[1])}"


def _turned(end: Point, turn: float, along: int) -> Point:
    """Where the line to an end leaves what it shares with others."""
    return (turn, end[1]) if along == 0 else (end[0], turn)


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
    """A link around a piece of the picture, or a plain group without an address.

    `label` is its name for who hears it. It is written where the texts shown are not the same words.
    """
    if not address:
        return f"<g{_classes(look)}>{body}</g>"
    name = escape(text.clean(label))
    shown = _read_as_one(body)
    named = "" if _said_in(shown) == name.replace(",", "") else f' aria-label="{name}"'
    return f'<a{_classes(look)} href="{escape(address)}"{named}>{shown}</a>'


def _read_as_one(body: str) -> str:
    """The texts of a link with room after each but the last, which nobody sees: who hears them hears words apart."""
    texts, end, rest = body.rpartition("</text>")
    return texts.replace("</text>", " </text>") + end + rest


def _said_in(body: str) -> str:
    """What a screen reader says of a link without a label: its texts in their order (Accessible Name and Description Computation, 2F)."""
    return "".join(_TEXTS.findall(body)).replace(",", "")


def moved(points: Iterable[Point]) -> list[Point]:
    """Points of a layout, inside the picture's margin."""
    return [(x + MARGIN, y + MARGIN) for x, y in points]


def corners(layout: Layout, graph: Graph) -> list[Point]:
    """Top left corner of every node, inside the picture's margin, at a whole px: finer is not seen and takes a third more bytes."""
    places = zip(moved(layout.centres), graph.sizes, strict=True)
    return [(round(x - width / 2), round(y - height / 2)) for (x, y), (width, height) in places]


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


_TEXTS = re.compile(r"<text[^>]*>([^<]*)</text>")
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
