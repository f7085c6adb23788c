"""The needle lowest and risen, and the point above its eye: least and most, as the point passes."""

from __future__ import annotations

from dataclasses import dataclass

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE, Measure

SCALE = 5
"To one: needle, rise and height share it."
_MM = SCALE * PX_PER_MM
_EYE, _END = 1.2, 2.6
"mm: the eye's length, and from its top to the needle's end; sketches."
_OVER = 8.0


@dataclass(frozen=True, slots=True)
class Blade:
    """What is known of the needle and of the point that passes it."""

    metric: int
    "Metric number of the needle."
    above: float | None
    "Point above the top of the eye in the middle of both targets, mm; None where no figure says."


def rise(measure: Measure, blade: Blade, prefix: str) -> str:
    """The needle lowest, then risen by the least and by the most; the point is where it passes."""
    over = (blade.above + (measure.high - measure.low) / 2 if blade.above is not None else 0.4) * _MM
    lowest = TOP + ROW + max(_OVER + over, 16) + measure.high * _MM
    point = None if blade.above is None else lowest - ((measure.low + measure.high) / 2 + blade.above) * _MM
    columns = ((0.0, "lowest", "dashed"), (measure.low, f"{measure.low:g}", "least"), (measure.high, f"{measure.high:g}", "most"))
    body, step = "", WIDE / 3
    for n, (mm, title, look) in enumerate(columns):
        middle = LEFT + step * (n + 0.5)
        body += _needle(blade, middle, lowest - mm * _MM, TOP + ROW + 4, look)
        body += sheet.small([title], middle, TOP, middle=True)
        if n and point is not None:
            body += _tip(middle, point, step / 2 - 1)
    end = lowest + _END * _MM
    level = draw.path(f"M{num(LEFT)} {num(end)}H{num(LEFT + WIDE)}", "line dashed")
    foot = (f"{measure.of} risen, mm", sheet.scale_line(SCALE, measure.tool))
    return sheet.svg(prefix, f"Rise of {measure.of}", sheet.said(measure, SCALE), body + level, end - TOP, foot)


def meeting(measure: Measure, blade: Blade, prefix: str) -> str:
    """The point least and most above the top of the eye."""
    top = TOP + ROW + 4
    eye = top + _OVER + max(measure.high, 0) * _MM
    body, step = "", WIDE / 2
    for n, (word, mm) in enumerate((("least", measure.low), ("most", measure.high))):
        middle = LEFT + step * (n + 0.5)
        body += _needle(blade, middle, eye, top, word) + _tip(middle, eye - mm * _MM, step / 2 - 4)
        body += sheet.small([f"{word} {sheet.figure(mm, measure.unit)}"], middle, TOP, middle=True)
    level = draw.path(f"M{num(LEFT)} {num(eye)}H{num(LEFT + WIDE)}", "line dashed")
    foot = (f"{measure.of} above {measure.to}", sheet.scale_line(SCALE, measure.tool))
    tall = eye + _END * _MM - TOP
    return sheet.svg(prefix, f"{measure.of} above {measure.to}", sheet.said(measure, SCALE), body + level, tall, foot)


def _needle(blade: Blade, middle: float, eye: float, top: float, look: str) -> str:
    """A needle from `top` down, the top of its eye at `eye`."""
    half = blade.metric / 200 * _MM
    end = eye + _END * _MM
    left, right, taper = num(middle - half), num(middle + half), num(end - 9)
    body = draw.path(f"M{left} {num(top)}H{right}V{taper}L{num(middle)} {num(end)}L{left} {taper}Z", f"box needle {look}")
    hole = f'x="{num(middle - half * 0.4)}" y="{num(eye)}" width="{num(half * 0.8)}" height="{num(_EYE * _MM)}"'
    return body + f'<rect class="transfer eye" {hole} rx="2"/>'


def _tip(middle: float, y: float, long: float) -> str:
    """A point, its tip on the needle's middle."""
    return draw.path(f"M{num(middle)} {num(y)}l{num(long)} -4v9Z", "gate point")
