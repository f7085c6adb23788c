"""The needle bar's rise against degrees of hand wheel, the window of hook timing shaded."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor

from generator.analysis.timing.needle_bar import Bar, rise, row
from generator.diagrams import draw, text
from generator.diagrams.draw import num

Place = Callable[[float], float]
"Where a figure stands on an axis, px."

LEFT, TOP, WIDE, TALL = 40.0, 30.0, 280.0, 190.0
"The field of the plot, px."
_BEYOND = 12.0
"Degrees that the plot goes on after the window."


def span(bar: Bar, high: float) -> tuple[float, float]:
    """Degrees and mm at the ends of the plot's axes, for a window that ends at `high` mm.

    >>> span(Bar(32, 46), 2.5)
    (50.0, 8.0)
    """
    degrees = 10.0 * ceil((row(bar, high).degrees + _BEYOND) / 10)
    return degrees, float(ceil(rise(bar, degrees)))


def svg(bar: Bar, low: float, high: float, prefix: str) -> str:
    """The plot as one inline SVG. `low` and `high` are the window's rises in mm; `prefix` keeps ids apart."""
    far, tall = span(bar, high)

    def x(degrees: float) -> float:
        return LEFT + WIDE * degrees / far

    def y(risen: float) -> float:
        return TOP + TALL * (1 - risen / tall)

    first, last = row(bar, low), row(bar, high)
    window = _window(x(first.degrees), x(last.degrees), y(high), y(low))
    points = (f"{num(x(d))} {num(y(rise(bar, d)))}" for d in range(int(far) + 1))
    curve = draw.path("M" + "L".join(points), "line top curve")
    told = f"Rise {low:g} to {high:g} mm: {first.degrees:.1f} to {last.degrees:.1f} degrees after lowest."
    body = window + _axes(x, y, far, tall) + curve + draw.words([told], LEFT - 32, TOP + TALL + 44)
    description = f"{told} Stroke {bar.stroke:g} mm, rod {bar.rod:g} mm{_beside(bar)}."
    return draw.svg(prefix, "Needle-bar rise against degrees of hand wheel", description, (324, TOP + TALL + 56), body)


def _beside(bar: Bar) -> str:
    return f", offset {bar.offset:g} mm" if bar.offset else ""


def _window(left: float, right: float, top: float, bottom: float) -> str:
    """Degrees of the window as a band, its rises as broken lines from the axis."""
    band = f'<rect class="gate window" x="{num(left)}" y="{num(TOP)}" width="{num(right - left)}" height="{num(TALL)}"/>'
    lines = f"M{num(LEFT)} {num(top)}H{num(right)}M{num(LEFT)} {num(bottom)}H{num(left)}"
    return band + draw.path(lines, "line dashed rises")


def _axes(x: Place, y: Place, far: float, tall: float) -> str:
    frame = draw.path(f"M{num(LEFT)} {num(TOP)}V{num(TOP + TALL)}H{num(LEFT + WIDE)}", "line")
    along = "".join(
        draw.words([str(d)], x(d), TOP + TALL + 4, "soft", middle=True, size=text.SMALL) for d in range(0, int(far) + 1, 10)
    )
    up = "".join(
        draw.words([str(mm)], LEFT - 14, y(mm) - 8, "soft", middle=True, size=text.SMALL) for mm in range(floor(tall) + 1)
    )
    names = draw.words(["Rise, mm"], 8, TOP - 24, "soft", size=text.SMALL)
    return frame + along + up + names + draw.words(
        ["Hand wheel, degrees after lowest"], LEFT + WIDE / 2, TOP + TALL + 20, "soft", middle=True, size=text.SMALL
    )
