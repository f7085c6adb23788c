"""Wrong keys that nearly fit a socket, and what each does there."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees, sqrt
from typing import Literal

from generator.standards.keys import KEY_SERIES, System
from generator.standards.quantity import Quantity

Fit = Literal["confused", "will not enter", "rounds", "turns free"]

CLOSE = 0.025
"""Share of the socket within which a wrong key passes for the right one.

Sockets are made up to some 3 % over their nominal size and keys a little under theirs (from memory),
so a key this near goes in and turns the screw. Neighbouring keys that do not swap are 5 % apart or more.
"""


@dataclass(frozen=True, slots=True)
class NearMiss:
    """A key of the series next to a socket's size."""

    key: Quantity
    system: System
    miss_mm: float
    "Key less socket: above zero the key is too large."
    fit: Fit
    rock_deg: float
    "How far the key turns each way before its corners meet the socket; 0 for a key that is not smaller."
    says: str


def near_misses(socket: Quantity) -> tuple[NearMiss, ...]:
    """The next keys over and under a hex socket in inches and in millimetres, nearest first.

    >>> for miss in near_misses(Quantity.parse("3/32 in"))[:2]:
    ...     print(miss.says)
    A 2.5 mm key in a 3/32 in socket is 0.12 mm over: it will not enter.
    A 2 mm key in a 3/32 in socket is 0.38 mm under: it turns round in the socket and moves nothing.
    """
    found = (_miss(socket, key, system) for system, series in KEY_SERIES.items() for key in _next_to(socket, series))
    return tuple(sorted(found, key=lambda miss: (abs(miss.miss_mm), str(miss.key))))


def rock(socket_mm: float, key_mm: float) -> float:
    """Degrees that a hex key turns each way in a larger hex socket before it bites; 60 if it never does.

    Sharp corners: a corner lies key / sqrt 3 from the centre and meets the socket's flat at half the
    socket's width.

    >>> round(rock(1.5875, 1.5), 1), rock(3.0, 3.0), rock(2.38125, 2.0)
    (6.4, 0.0, 60.0)
    """
    reach = sqrt(3) / 2 * socket_mm / key_mm
    if key_mm >= socket_mm:
        return 0.0
    return 60.0 if reach >= 1 else 30 - degrees(acos(reach))


def _next_to(socket: Quantity, series: tuple[Quantity, ...]) -> list[Quantity]:
    """The nearest of the series below and above; the socket's own key is neither."""
    size = socket.to("mm").value
    below = [key for key in series if key.to("mm").value < size]
    above = [key for key in series if key.to("mm").value > size]
    return below[-1:] + above[:1]


def _miss(socket: Quantity, key: Quantity, system: System) -> NearMiss:
    across, wide = socket.number("mm"), key.number("mm")
    miss, angle = wide - across, rock(across, wide)
    fit = _fit(miss, across, angle)
    side = "over" if miss > 0 else "under"
    pair = f"{_article(key).capitalize()} {key} key in {_article(socket)} {socket} socket"
    says = f"{pair} is {abs(miss):.2f} mm {side}: {_does(fit, angle)}."
    return NearMiss(key, system, miss, fit, angle, says)


def _fit(miss: float, across: float, angle: float) -> Fit:
    if abs(miss) <= CLOSE * across:
        return "confused"
    if miss > 0:
        return "will not enter"
    return "turns free" if angle == 60 else "rounds"


def _does(fit: Fit, angle: float) -> str:
    return {
        "confused": "it fits closely enough to be confused, so read the key before you lean on it",
        "will not enter": "it will not enter",
        "rounds": f"it rocks {angle:.0f}° each way and will round it",
        "turns free": "it turns round in the socket and moves nothing",
    }[fit]


def _article(size: Quantity) -> str:
    return "an" if str(size).startswith(("8", "11 ")) else "a"
