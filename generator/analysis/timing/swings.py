"""Zigzag: the hook point comes to one swing before the other, and one timing must serve both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.analysis.motion import slider_crank_rise
from generator.analysis.timing.needle_bar import Bar, Row, row


@dataclass(frozen=True, slots=True)
class Swings:
    """The three positions as the point comes to them: first, middle, last."""

    rises: tuple[float, float, float]
    "mm after bottom dead centre."
    degrees: float
    "Of hand wheel, from the middle to either swing."


def swings(bar: Bar, middle: Row, width: float, path_per_degree: float) -> Swings:
    """Rises at the first swing, the middle and the last, where the middle has `middle`.

    `width` is the zigzag in mm from swing to swing, `path_per_degree` mm of the point's path for a degree of hand
    wheel. The path is taken as straight over the width.
    """
    apart = width / 2 / path_per_degree
    first, last = (slider_crank_rise(bar.stroke, bar.rod, middle.degrees + side * apart) for side in (-1, 1))
    return Swings((first, middle.rise, last), apart)


def even_middle(bar: Bar, aim: float, apart: float) -> Row:
    """The middle's timing at which first and last swing lie evenly about the rise `aim`; `apart` degrees each way.

    Halving of the angle, to a millionth of a degree. ValueError where the swings are too far apart for it.
    """

    def over(degrees: float) -> float:
        rises = (slider_crank_rise(bar.stroke, bar.rod, degrees + side * apart) for side in (-1, 1))
        return sum(rises) / 2 - aim

    if over(apart) > 0:
        raise ValueError("The two swings are too far apart for a rise so small.")
    return row(bar, slider_crank_rise(bar.stroke, bar.rod, _zero(over, apart, 90.0)))


def _zero(rising: Callable[[float], float], low: float, high: float) -> float:
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2
