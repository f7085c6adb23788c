"""The end of a shaft with its flat and set screws, seen where it turns clockwise: which screw comes first."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos, degrees, pi, radians, sin, sqrt

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE

APART = 90.0
"Degrees between two screws where they are drawn; the usual angle, and no more than that."
_ROOM = 62.0
_UNDER = 0.45
"How far below its middle the shaft is broken off, in radii."


@dataclass(frozen=True, slots=True)
class Seat:
    """Set screws on a shaft, in mm."""

    shaft: float
    flat: float
    "Width across."
    depth: float
    screw: str
    "Thread, as written."
    thick: float
    "Over the screw's thread."
    count: int
    first: str
    "Where the first screw in the direction of rotation seats, in words; empty where it is not recorded."
    turns: str
    "How far to back it out, in words."


@dataclass(frozen=True, slots=True)
class _View:
    x: float
    y: float
    radius: float
    wall: float
    "Thickness of the hub; a sketch."
    px: float
    "For a mm."

    def at(self, turned: float, distance: float, aside: float = 0.0) -> str:
        """A place `distance` px from the middle, `turned` degrees clockwise of straight up, `aside` px clockwise of that."""
        angle = radians(turned)
        x = self.x + distance * sin(angle) + aside * cos(angle)
        return f"{num(x)} {num(self.y - distance * cos(angle) + aside * sin(angle))}"


def svg(seat: Seat, prefix: str) -> str:
    """The drawing as one inline SVG. The hub's thickness and the angle between the screws are sketches."""
    scale = sheet.scale_for(seat.shaft, _ROOM)
    radius = seat.shaft / 2 * scale * PX_PER_MM
    wall = min(20.0, max(9.0, 0.7 * radius))
    view = _View(LEFT + WIDE / 2, TOP + ROW + wall + radius + 2, radius, wall, scale * PX_PER_MM)
    turned = [0.0] if seat.count < 2 else [APART / 2, -APART / 2]
    flat = _flat_at(seat, turned)
    body = _hub(view) + _shaft(seat, view, flat)
    body += "".join(_screw(seat, view, angle, angle == flat) for angle in turned)
    if seat.first and seat.count > 1:
        body += _order(view)
    tall = view.y + _UNDER * radius + 2 - TOP
    foot = (*_lines(seat), sheet.scale_line(scale, ""))
    return sheet.svg(prefix, "Shaft, flat and set screws", described(seat, scale), body, tall, foot)


def described(seat: Seat, scale: float) -> str:
    """The drawing in words."""
    return f"{'; '.join(_lines(seat))}; shaft {sheet.figure(seat.shaft, 'mm')}. Drawn {sheet.scale_words(scale)}."


def _lines(seat: Seat) -> list[str]:
    flat = f"flat {round(seat.flat, 2):g} wide, {sheet.figure(seat.depth, 'mm')} deep"
    first = [f"1 first: {seat.first}"] if seat.first and seat.count > 1 else []
    return [*first, flat, f"{seat.screw}, out {seat.turns}" if seat.turns else seat.screw]


def _flat_at(seat: Seat, turned: list[float]) -> float:
    """The screw over the flat: the first one, unless the record has the first on the round."""
    return turned[-1] if "round" in seat.first else turned[0]


def _hub(view: _View) -> str:
    """The hub as a ring, broken off under the shaft's middle."""
    outer = view.radius + view.wall
    half = degrees(asin(min(1.0, _UNDER * view.radius / outer))) + 90
    inner = degrees(asin(_UNDER)) + 90
    ring = (
        f"M{view.at(-half, outer)}A{num(outer)} {num(outer)} 0 1 1 {view.at(half, outer)}"
        f"L{view.at(inner, view.radius)}A{num(view.radius)} {num(view.radius)} 0 1 0 {view.at(-inner, view.radius)}Z"
    )
    return draw.path(ring, "box face")


def _shaft(seat: Seat, view: _View, flat: float) -> str:
    """The shaft to scale, its flat under the screw that stands at `flat` degrees."""
    half = degrees(asin(min(1.0, seat.flat / seat.shaft)))
    ends, r = degrees(asin(_UNDER)) + 90, num(view.radius)
    left = 1 if flat - half + ends > 180 else 0
    right = 1 if ends - flat - half > 180 else 0
    data = (
        f"M{view.at(-ends, view.radius)}A{r} {r} 0 {left} 1 {view.at(flat - half, view.radius)}"
        f"L{view.at(flat + half, view.radius)}A{r} {r} 0 {right} 1 {view.at(ends, view.radius)}Z"
    )
    return draw.path(data, "box shaft")


def _screw(seat: Seat, view: _View, turned: float, on_flat: bool) -> str:
    """A screw through the hub, its end on the flat or on the round."""
    half = seat.thick / 2 * view.px
    deep = view.radius - seat.depth * view.px
    seated = deep if on_flat else sqrt(max(0.0, view.radius**2 - (half / 2) ** 2))
    out = view.radius + view.wall
    shape = (
        f"M{view.at(turned, out, -half)}L{view.at(turned, seated + half / 2, -half)}L{view.at(turned, seated, -half / 2)}"
        f"L{view.at(turned, seated, half / 2)}L{view.at(turned, seated + half / 2, half)}L{view.at(turned, out, half)}Z"
    )
    return draw.path(shape, f"gate screw{' on-flat' if on_flat else ''}")


def _order(view: _View) -> str:
    """Numbers of the two screws, and the way round that the shaft turns."""
    out = view.radius + view.wall
    side = (out + 12) * sin(pi / 4)
    high = view.y - (out + 12) * cos(pi / 4) - 8
    numbers = sheet.small(["1"], view.x + side + 2, high, "strong", middle=True)
    numbers += sheet.small(["2"], view.x - side - 2, high, "strong", middle=True)
    arc = f"M{view.at(-24, out + 7)}A{num(out + 7)} {num(out + 7)} 0 0 1 {view.at(20, out + 7)}"
    head = f"M{view.at(28, out + 7)}L{view.at(18, out + 11)}L{view.at(18, out + 3)}Z"
    return numbers + draw.path(arc, "line turn") + draw.path(head, "head")
