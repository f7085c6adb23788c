"""The needle bar's rise after bottom dead centre: a table over a window, and how fast it rises."""

from __future__ import annotations

import math
from dataclasses import dataclass
from math import ceil, floor

from generator.analysis.motion import slider_crank_angle

_STEPS = 10
"Rows to the millimetre."


@dataclass(frozen=True, slots=True)
class Bar:
    """A needle bar driven by a crank through a rod."""

    stroke: float
    "mm, highest to lowest."
    rod: float
    "mm, pin to pin; longer than half the stroke."


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a rise table."""

    rise: float
    "mm after bottom dead centre."
    degrees: float
    "Hand wheel, after bottom dead centre."
    rate: float
    "mm of rise for one degree of hand wheel here."


def rise_per_degree(bar: Bar, degrees: float) -> float:
    """mm of rise for one degree of hand wheel, at `degrees` after bottom dead centre.

    The derivative of `slider_crank_rise`; negative while the bar goes down.

    >>> round(rise_per_degree(Bar(32, 46), 25), 3)
    0.156
    """
    crank, turned = bar.stroke / 2, math.radians(degrees)
    sine, cosine = math.sin(turned), math.cos(turned)
    along = math.sqrt(bar.rod**2 - (crank * sine) ** 2)
    return math.radians(crank * sine + crank**2 * sine * cosine / along)


def row(bar: Bar, rise: float) -> Row:
    """What the hand wheel shows at a rise; ValueError for a rise outside the stroke."""
    degrees = slider_crank_angle(bar.stroke, bar.rod, rise)
    return Row(rise, degrees, rise_per_degree(bar, degrees))


def rise_table(bar: Bar, low: float, high: float) -> tuple[Row, ...]:
    """Rows at every tenth of a mm from `low` to `high`, and at both ends; mm.

    >>> [r.rise for r in rise_table(Bar(32, 46), 1.8, 2.1)]
    [1.8, 1.9, 2.0, 2.1]
    """
    first, last = floor(low * _STEPS + 1e-9) + 1, ceil(high * _STEPS - 1e-9) - 1
    between = (tenth / _STEPS for tenth in range(first, last + 1))
    return tuple(row(bar, rise) for rise in dict.fromkeys((low, *between, high)))
