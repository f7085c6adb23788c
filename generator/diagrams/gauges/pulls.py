"""A spring scale with the good pulls marked on it, and a belt that gives under a finger."""

from __future__ import annotations

from math import ceil, log10

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE, Measure

_TUBE = 16.0


def full_scale(high: float) -> float:
    """The end of a scale on which `high` lies within: 1, 2 or 5 with noughts.

    >>> full_scale(120), full_scale(35), full_scale(15)
    (200.0, 50.0, 20.0)
    """
    ten = 10.0 ** (ceil(log10(high)) - 1)
    return next(step * ten for step in (1, 2, 5, 10, 20) if step * ten > high)


def svg(measure: Measure, prefix: str) -> str:
    """A straight spring scale, its ring of thread at the left; the band on it is what is good."""
    full = full_scale(measure.high)
    left, wide, y = LEFT + 26, WIDE - 34, TOP + ROW + 4
    low, high = (left + wide * value / full for value in (measure.low, measure.high))
    ticks = "".join(f"M{num(left + wide * n / 10)} {num(y + _TUBE)}v{7 if n % 5 == 0 else 4}" for n in range(11))
    marks = "".join(
        sheet.small([f"{full * part:g}"], left + wide * part, y + _TUBE + 8, "soft", middle=True) for part in (0, 0.5, 1)
    )
    body = (
        sheet.small(sheet.wrapped(measure.of, WIDE)[:1], LEFT, TOP)
        + draw.path(f"M{num(LEFT)} {num(y + _TUBE / 2)}H{num(left - 10)}", "line thread")
        + draw.circle((left - 6, y + _TUBE / 2), 4)
        + draw.path(f"M{num(left)} {num(y)}h{num(wide)}v{num(_TUBE)}h{num(-wide)}Z", "box tube")
        + draw.path(f"M{num(low)} {num(y)}H{num(high)}V{num(y + _TUBE)}H{num(low)}Z", "gate band")
        + draw.path(ticks, "line ticks")
        + marks
    )
    good = f"{measure.low:g} to {sheet.figure(measure.high, measure.unit)}"
    foot = (f"good: {good}", f"pull {measure.to}" if measure.to else "", measure.tool)
    return sheet.svg(prefix, f"Pull of {measure.of}", sheet.said(measure, None), body, y + _TUBE + 22 - TOP, foot)


def give(measure: Measure, prefix: str) -> str:
    """A belt between two pulleys pressed in its middle: whole line least, broken line most. The pulleys are sketches."""
    scale = sheet.scale_for(measure.high, 44)
    y, left, right = TOP + ROW + 6, LEFT + 8, LEFT + WIDE - 8
    middle = (left + right) / 2
    deep = [mm * scale * PX_PER_MM for mm in (measure.low, measure.high)]
    lines = "".join(
        draw.path(f"M{num(left)} {num(y)}L{num(middle)} {num(y + px)}L{num(right)} {num(y)}", f"line {look}")
        for px, look in zip(deep, ("least", "dashed most"), strict=True)
    )
    ends = "".join(draw.path(f"M{num(x)} {num(y)}a8 8 0 0 {turn} 0 16", "line") for x, turn in ((left, 0), (right, 1)))
    straight = draw.path(f"M{num(left)} {num(y)}H{num(right)}", "line")
    finger = draw.path(f"M{num(middle - 4)} {num(y - 10)}h8l-4 8Z", "head")
    title = sheet.small(["press half way"], middle, TOP - 2, "soft", middle=True)
    said = f"least {sheet.figure(measure.low, measure.unit)}, most {sheet.figure(measure.high, measure.unit)}"
    foot = (said, sheet.scale_line(scale, measure.tool))
    body = straight + lines + ends + finger + title
    return sheet.svg(prefix, f"Give of {measure.of}", sheet.said(measure, scale), body, y + deep[1] + 6 - TOP, foot)
