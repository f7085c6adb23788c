"""Zigzag: the hook point comes to one swing before the other, and one timing must serve both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.analysis.timing.hook import Hook, comes_to
from generator.analysis.timing.needle_bar import Bar, Row, rise, row

_LATEST = 90.0
"Degrees after bottom dead centre by which the middle of a zigzag is sought."


@dataclass(frozen=True, slots=True)
class Swings:
    """The three positions as the point comes to them: first, middle, last."""

    rises: tuple[float, float, float]
    "mm after bottom dead centre."
    before: float
    "Degrees of hand wheel from the first swing to the middle."
    after: float
    "And from the middle to the last."


def swings(bar: Bar, middle: Row, width: float, hook: Hook, radius: float) -> Swings:
    """Rises at the first swing, the middle and the last, where the middle has `middle`.

    `width` is the zigzag in mm from swing to swing. The point's path is taken as straight over the width.
    ValueError where a swinging hook does not come so far.
    """
    first, last = _apart(middle.degrees, width, hook, radius)
    return Swings((rise(bar, first), middle.rise, rise(bar, last)), middle.degrees - first, last - middle.degrees)


def even_middle(bar: Bar, aim: float, width: float, hook: Hook, radius: float) -> Row:
    """The middle's timing at which first and last swing lie evenly about the rise `aim`.

    The hook is as it is, and the bar's lowest is what is moved against it; a swinging hook is taken to go as
    fast as it does about `aim`. Halving of the angle, to a millionth of a degree. ValueError where the swings
    are too far apart for it.
    """
    passing = row(bar, aim).degrees
    first, last = _apart(passing, width, hook, radius)
    before, after = passing - first, last - passing

    def over(degrees: float) -> float:
        return (rise(bar, degrees - before) + rise(bar, degrees + after)) / 2 - aim

    if over(before) > 0:
        raise ValueError("The two swings are too far apart for a rise so small.")
    return row(bar, rise(bar, _zero(over, before, _LATEST)))


def _apart(passing: float, width: float, hook: Hook, radius: float) -> tuple[float, float]:
    """Degrees of hand wheel at the first swing and at the last."""
    return comes_to(hook, radius, passing, -width / 2), comes_to(hook, radius, passing, width / 2)


def _zero(rising: Callable[[float], float], low: float, high: float) -> float:
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2
