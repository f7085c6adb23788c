"""Two runs of as many stitches, one over the other, to lay a scrap upon."""

from __future__ import annotations

from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE, Measure

_STITCHES = 10


def svg(measure: Measure, over: float, prefix: str) -> str:
    """The first run `over` mm long, and the band in which the second ends; `measure` is their difference in mm."""
    scale = sheet.scale_for(over + measure.high, WIDE - 4)
    px = scale * PX_PER_MM
    first, second = TOP + ROW + 4, TOP + 2 * ROW + 24
    end = LEFT + over * px
    shorter, longer = end - measure.high * px, end + measure.high * px
    band = draw.path(f"M{num(shorter)} {num(second - 6)}H{num(longer)}v12H{num(shorter)}Z", "gate band")
    body = (
        sheet.small([measure.of], LEFT, TOP)
        + _run(LEFT, end, first)
        + sheet.small([f"{measure.to}: ends in the band"], LEFT, TOP + ROW + 16)
        + band
        + _run(LEFT, end, second)
    )
    foot = (
        f"{_STITCHES} stitches, {over:g} mm; up to {sheet.figure(measure.high, measure.unit)} apart",
        sheet.scale_line(scale, measure.tool),
    )
    return sheet.svg(prefix, f"{measure.of} and {measure.to}", sheet.said(measure, scale), body, second + 8 - TOP, foot)


def _run(left: float, right: float, y: float) -> str:
    """A line of stitches with a hole between each two."""
    step = (right - left) / _STITCHES
    ticks = "".join(f"M{num(left + step * n)} {num(y - 3)}v6" for n in range(_STITCHES + 1))
    return draw.path(f"M{num(left)} {num(y)}H{num(right)}{ticks}", "line run")
