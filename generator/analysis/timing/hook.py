"""The hook against the hand wheel: one that goes round, one that swings; and play at its rim."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Turning:
    """A hook that goes round."""

    turns: float
    "For one turn of the hand wheel: 1, 2 or 3."

    def turned(self, degrees: float) -> float:
        """Degrees of hook while the hand wheel goes `degrees` from bottom dead centre."""
        return self.turns * degrees

    def rate(self, _degrees: float) -> float:
        """Degrees of hook for one of the hand wheel."""
        return self.turns

    def reached(self, hook: float) -> float:
        """Degrees of hand wheel at which the hook has gone so far; inverse of `turned`."""
        return hook / self.turns


@dataclass(frozen=True, slots=True)
class Swinging:
    """A hook or a shuttle that goes to and fro, once for a turn of the hand wheel, as a sine.

    Cranks and forks differ a little from a sine.
    """

    swing: float
    "Degrees from end to end; of a shuttle, of the lever that carries it."
    start: float
    "Degrees of hand wheel before bottom dead centre at which it sets out towards the needle."

    def turned(self, degrees: float) -> float:
        """Degrees that it has gone from the end that it set out from."""
        return self.swing / 2 * (1 - math.cos(math.radians(degrees + self.start)))

    def rate(self, degrees: float) -> float:
        """Degrees of hook for one of the hand wheel; negative on the way back."""
        return math.radians(self.swing) / 2 * math.sin(math.radians(degrees + self.start))

    def reached(self, hook: float) -> float:
        """Degrees of hand wheel at which it has gone so far, on the way out; ValueError beyond its swing."""
        if not 0 <= hook <= self.swing:
            raise ValueError(f"A hook that swings {self.swing:g} degrees does not come to {hook:.1f}.")
        return math.degrees(math.acos(1 - 2 * hook / self.swing)) - self.start


Hook = Turning | Swinging


def swing_rate_at_most(swing: float) -> float:
    """Degrees of a swinging hook for one degree of hand wheel, where it goes fastest: half its swing for a radian.

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


def point_at(hook: Hook, radius: float, passing: float, degrees: float) -> float:
    """mm that the point stands past the needle along its path, at `degrees`; it passes the needle at `passing`.

    Negative before it has come.
    """
    return along_path(radius, hook.turned(degrees) - hook.turned(passing))


def comes_to(hook: Hook, radius: float, passing: float, along: float) -> float:
    """Degrees of hand wheel at which the point stands `along` mm past the needle; inverse of `point_at`.

    >>> round(comes_to(Turning(2), 17, 25.0, 2.5), 2)
    29.21
    """
    return hook.reached(hook.turned(passing) + math.degrees(along / radius))


def play_degrees(play: float, radius: float) -> float:
    """Degrees of a shaft that `play` mm is, felt at `radius` mm.

    >>> round(play_degrees(3.142, 18), 1)
    10.0
    """
    return math.degrees(play / radius)
