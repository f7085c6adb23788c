"""The hook against the hand wheel, and play at its rim."""

from __future__ import annotations

import math


def swing_rate_at_most(swing: float) -> float:
    """Degrees of a swinging hook for one degree of hand wheel, where it goes fastest.

    A hook that swung as a sine would go half its swing for a radian at the middle. Cranks and forks differ a
    little from a sine, so this is near and no more.

    >>> round(swing_rate_at_most(210), 2)
    1.83
    """
    return math.radians(swing) / 2


def along_path(radius: float, degrees: float) -> float:
    """mm that the hook point goes along its path while the hook turns by `degrees`.

    >>> round(along_path(18, 10), 3)
    3.142
    """
    return radius * math.radians(degrees)


def play_degrees(play: float, radius: float) -> float:
    """Degrees of a shaft that `play` mm is, felt at `radius` mm.

    >>> round(play_degrees(3.142, 18), 1)
    10.0
    """
    return math.degrees(play / radius)
