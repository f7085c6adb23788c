"""The needle bar's rise after bottom dead centre: a table over a window, and how fast it rises."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from generator.analysis.timing import offset_crank
from generator.analysis.timing.offset_crank import Crank, crank_of

_STEPS = 10
"Rows to the millimetre."


@dataclass(frozen=True, slots=True)
class Bar:
    """A needle bar driven by a crank through a rod."""

    stroke: float
    "mm, highest to lowest."
    rod: float
    "mm, pin to pin; longer than the crank and the offset."
    offset: float = 0.0
    "mm from the bar's line to the middle of the crank; positive on the side to which the pin goes as the bar rises."

    @property
    def crank(self) -> Crank:
        """The crank that gives the stroke; ValueError where the rod is too short."""
        return crank_of(self.stroke, self.rod, self.offset)


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a rise table."""

    rise: float
    "mm after bottom dead centre."
    degrees: float
    "Hand wheel, after bottom dead centre."
    rate: float
    "mm of rise for one degree of hand wheel here."


def rise(bar: Bar, degrees: float) -> float:
    """mm above the lowest, at `degrees` of hand wheel after it.

    >>> round(rise(Bar(32, 46), 25), 2)
    2.0
    """
    return offset_crank.rise(bar.crank, degrees)


def rise_per_degree(bar: Bar, degrees: float) -> float:
    """mm of rise for one degree of hand wheel; negative while the bar goes down.

    >>> round(rise_per_degree(Bar(32, 46), 25), 3)
    0.156
    """
    return offset_crank.rise_per_degree(bar.crank, degrees)


def row(bar: Bar, risen: float) -> Row:
    """What the hand wheel shows at a rise; ValueError for a rise outside the stroke."""
    degrees = offset_crank.rising_angle(bar.crank, risen)
    return Row(risen, degrees, rise_per_degree(bar, degrees))


def coming_down(bar: Bar, risen: float) -> float:
    """Degrees of hand wheel after bottom dead centre, up to 360, at which the bar has come down to a rise."""
    return offset_crank.falling_angle(bar.crank, risen)


def rise_table(bar: Bar, low: float, high: float) -> tuple[Row, ...]:
    """Rows at every tenth of a mm from `low` to `high`, and at both ends; mm.

    >>> [r.rise for r in rise_table(Bar(32, 46), 1.8, 2.1)]
    [1.8, 1.9, 2.0, 2.1]
    """
    first, last = floor(low * _STEPS + 1e-9) + 1, ceil(high * _STEPS - 1e-9) - 1
    between = (tenth / _STEPS for tenth in range(first, last + 1))
    return tuple(row(bar, risen) for risen in dict.fromkeys((low, *between, high)))
