"""How the needle bar moves: a slider-crank, its shaft above the bar and its rod hanging down."""

from __future__ import annotations

import math


def slider_crank(crank: float, rod: float, degrees: float) -> float:
    """Distance from the shaft to the slider, x = r cos a + sqrt(L^2 - r^2 sin^2 a); lengths in one unit.

    `degrees` from where slider and shaft are furthest apart. ValueError unless the rod is the longer.

    >>> round(slider_crank(3, 7, 40), 4)
    9.0273
    """
    if not 0 < crank < rod < float("inf"):
        raise ValueError(
            f"The connecting rod, {rod:g}, must be longer than the crank, {crank:g}, and both more than zero."
        )
    turned = math.radians(degrees)
    return crank * math.cos(turned) + math.sqrt(rod**2 - (crank * math.sin(turned)) ** 2)


def slider_crank_rise(stroke: float, rod: float, degrees: float) -> float:
    """Rise of the needle bar after bottom dead centre, at `degrees` of the hand wheel.

    The crank is half the stroke. The shaft stands above the bar, so bottom dead centre is where slider and
    shaft are furthest apart: rise = x(0) - x(degrees). A slider above its crank would be lowest at x(180)
    instead; piston textbooks draw that one.

    >>> round(slider_crank_rise(32, 46, 180), 6), round(slider_crank_rise(6, 7, 40), 4)
    (32.0, 0.9727)
    """
    crank = stroke / 2
    return slider_crank(crank, rod, 0) - slider_crank(crank, rod, degrees)


def slider_crank_angle(stroke: float, rod: float, rise: float) -> float:
    """Degrees after bottom dead centre, 0 to 180, at which the bar has risen by `rise`.

    By the law of cosines in the triangle of crank, rod and their line of centres. ValueError for a rise
    outside the stroke.

    >>> round(slider_crank_angle(6, 7, 0.9727), 1)
    40.0
    """
    crank = stroke / 2
    furthest = slider_crank(crank, rod, 0)
    if not 0 <= rise <= stroke:
        raise ValueError(f"A bar with a stroke of {stroke:g} cannot rise by {rise:g}.")
    x = furthest - rise
    cosine = (x**2 + crank**2 - rod**2) / (2 * x * crank)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
