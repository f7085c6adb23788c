"""A slider-crank whose slider runs beside the middle of its shaft, not through it."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Crank:
    """Crank, rod and offset, in one unit of length.

    A positive offset lies on the side to which the crank pin goes as the slider leaves its lowest.
    """

    radius: float
    rod: float
    offset: float

    @property
    def lowest(self) -> float:
        """Degrees of the crank, from the line through the shaft along the slider's way, at which the slider is lowest."""
        return math.degrees(math.asin(self.offset / (self.rod + self.radius)))

    @property
    def highest(self) -> float:
        """Degrees of the crank after `lowest` at which the slider is highest; 180 without an offset."""
        return 180 + math.degrees(math.asin(self.offset / (self.rod - self.radius))) - self.lowest

    @property
    def furthest(self) -> float:
        """From the shaft to the slider at its lowest, along the slider's way."""
        return math.sqrt((self.rod + self.radius) ** 2 - self.offset**2)


def crank_of(stroke: float, rod: float, offset: float = 0.0) -> Crank:
    """The crank that gives a stroke: r^2 = S^2 (4 (L^2 - e^2) - S^2) / (4 (4 L^2 - S^2)).

    From S = sqrt((L + r)^2 - e^2) - sqrt((L - r)^2 - e^2), the slider's two ends. ValueError where the rod
    cannot go round.

    >>> crank_of(32, 46).radius, round(crank_of(32, 46, 5).radius, 3)
    (16.0, 15.892)
    """
    under = 4 * (rod**2 - offset**2) - stroke**2
    if not (0 < stroke < 2 * rod < float("inf") and under > 0):
        raise ValueError(_too_short(stroke, rod, offset))
    radius = stroke * math.sqrt(under / (4 * rod**2 - stroke**2)) / 2
    if radius + abs(offset) >= rod or stroke**2 > 2 * (rod**2 + radius**2 - offset**2):  # else: the sum of both ends
        raise ValueError(_too_short(stroke, rod, offset))
    return Crank(radius, rod, offset)


def _too_short(stroke: float, rod: float, offset: float) -> str:
    beside = f" and an offset of {offset:g}" if offset else ""
    return f"A connecting rod of {rod:g} cannot go round with a stroke of {stroke:g}{beside}."


def rise(crank: Crank, degrees: float) -> float:
    """How far the slider is above its lowest, `degrees` of the crank after it."""
    turned = math.radians(crank.lowest + degrees)
    aside = crank.radius * math.sin(turned) - crank.offset
    return crank.furthest - crank.radius * math.cos(turned) - math.sqrt(crank.rod**2 - aside**2)


def rise_per_degree(crank: Crank, degrees: float) -> float:
    """The derivative of `rise`, for one degree; negative while the slider goes down."""
    turned = math.radians(crank.lowest + degrees)
    sine, cosine = math.sin(turned), math.cos(turned)
    aside = crank.radius * sine - crank.offset
    return math.radians(crank.radius * sine + aside * crank.radius * cosine / math.sqrt(crank.rod**2 - aside**2))


def rising_angle(crank: Crank, risen: float) -> float:
    """Degrees after the lowest at which the slider, going up, has risen so far; ValueError outside the stroke."""
    return _angle(crank, risen, 1)


def falling_angle(crank: Crank, risen: float) -> float:
    """Degrees after the lowest, up to 360, at which the slider has come down to so far above its lowest."""
    return 360 + _angle(crank, risen, -1)


def _angle(crank: Crank, risen: float, side: int) -> float:
    """By the law of cosines in the triangle of crank, rod and the line from shaft to slider."""
    stroke = crank.furthest - math.sqrt((crank.rod - crank.radius) ** 2 - crank.offset**2)
    if not -1e-9 <= risen <= stroke + 1e-9:
        raise ValueError(f"A bar with a stroke of {stroke:g} cannot rise by {risen:g}.")
    x = crank.furthest - risen
    line = math.hypot(x, crank.offset)
    cosine = (line**2 + crank.radius**2 - crank.rod**2) / (2 * line * crank.radius)
    between = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
    return math.degrees(math.atan2(crank.offset, x)) + side * between - crank.lowest
