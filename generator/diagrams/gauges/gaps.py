"""A gap drawn at its least and at its most: faces, a point and a face, teeth; the gauge is in it."""

from __future__ import annotations

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE, Measure

_WALL = LEFT + 48.0
"Where the face is from which is measured, px."
_ROOM = 30.0
_TALL = 30.0
"Of the body in each row."
_SLANT = 6.0
"Of a tooth's flank over the height of the body."


def svg(measure: Measure, prefix: str, shape: str) -> str:
    """`shape` is gap, point-gap or tooth-gap; lengths of the measure in mm."""
    scale = sheet.scale_for(measure.high, _ROOM)
    slant = _SLANT if shape == "tooth-gap" else 0.0
    rows = (("least", measure.low), ("most", measure.high))
    body = "".join(_row(measure, n, word, mm, scale, shape) for n, (word, mm) in enumerate(rows))
    tall = 2 * (ROW + _TALL) + 4
    wall = draw.path(
        f"M{num(LEFT)} {num(TOP)}H{num(_WALL + slant)}L{num(_WALL - slant)} {num(TOP + tall)}H{num(LEFT)}Z", "box face"
    )
    name = sheet.small(sheet.wrapped(measure.to, 44 - slant), LEFT + 3, TOP + 22)
    foot = (sheet.scale_line(scale, measure.tool),)
    return sheet.svg(prefix, f"Gap of {measure.of}", sheet.said(measure, scale), wall + body + name, tall, foot)


def _row(measure: Measure, number: int, word: str, mm: float, scale: float, shape: str) -> str:
    top = TOP + number * (ROW + _TALL + 4)
    y, right = top + ROW, LEFT + WIDE
    lean = _lean(shape, y)
    wall = _WALL + lean
    near = wall + mm * scale * PX_PER_MM
    if shape == "point-gap":
        middle = y + _TALL / 2
        data = f"M{num(near)} {num(middle)}L{num(near + 26)} {num(y)}H{num(right)}V{num(y + _TALL)}H{num(near + 26)}Z"
    else:
        fall = _lean(shape, y + _TALL) - lean
        data = f"M{num(near)} {num(y)}H{num(right)}V{num(y + _TALL)}H{num(near + fall)}Z"
    gauge = _gauge(wall, near, y, shape) if near > wall else ""
    title = sheet.small([f"{word} {sheet.figure(mm, measure.unit)}"], _WALL + 14, top)
    name = sheet.small(sheet.wrapped(measure.of, right - near - 20)[:2], near + 18, y + 2) if number == 0 else ""
    return gauge + draw.path(data, f"box body {word}") + title + name


def _lean(shape: str, y: float) -> float:
    """How far the wall stands from its middle at a height, px."""
    if shape != "tooth-gap":
        return 0.0
    half = ROW + _TALL + 2
    return _SLANT * (1 - (y - TOP) / half)


def _gauge(wall: float, near: float, y: float, shape: str) -> str:
    """The leaf in the gap."""
    top, tall = (y + 4, _TALL - 8) if shape == "point-gap" else (y, _TALL)
    fall = _lean(shape, y + tall) - _lean(shape, y)
    data = f"M{num(wall)} {num(top)}H{num(near)}L{num(near + fall)} {num(top + tall)}H{num(wall + fall)}Z"
    return draw.path(data, "gate leaf")
