"""Toothed belts a tooth off, and the speed that pulleys give."""

from __future__ import annotations

from math import asin, cos, pi, sqrt

from generator.analysis.reckon import belt_tooth_degrees
from generator.analysis.timing.needle_bar import Bar, Row, rise


def tooth_at_hand_wheel(upper: float) -> float:
    """Degrees of hand wheel that one tooth of the belt is, moved on either pulley.

    A pitch of belt is 360 / `upper` degrees of the upper shaft, which the hand wheel is on. On the lower pulley
    it is 360 / lower degrees of the lower shaft, which is the same angle of the hand wheel.

    >>> tooth_at_hand_wheel(20)
    18.0
    """
    return belt_tooth_degrees(int(upper))


def rise_when_off(bar: Bar, right: Row, degrees: float) -> float:
    """Rise at which the hook point comes, where the belt lets it come `degrees` of hand wheel late; negative: early.

    Before bottom dead centre the bar is still going down, and its height above the lowest is given all the same.
    """
    return rise(bar, right.degrees + degrees)


def motor_speed(stitches: float, wheel: float, motor: float) -> float:
    """Turns of the motor in a minute at so many stitches in a minute; pulleys by diameter or by teeth, in one measure.

    >>> motor_speed(900, 80, 10)
    7200.0
    """
    return stitches * wheel / motor


def pitch_diameter(teeth: float, pitch: float) -> float:
    """mm across a toothed pulley's pitch circle: a tooth of the belt to every pitch round it.

    >>> round(pitch_diameter(20, 5.08), 2)
    32.34
    """
    return teeth * pitch / pi


def belt_length(centres: float, larger: float, smaller: float) -> float:
    """Length of an open belt along its pitch line, for two pitch diameters and the distance of their centres.

    L = 2 C cos(a) + pi (D + d) / 2 + a (D - d), where sin(a) = (D - d) / (2 C): any handbook of belts.

    >>> round(belt_length(100, 30, 30), 3)
    294.248
    """
    if centres <= (larger - smaller) / 2:
        raise ValueError("The pulleys stand within each other: measure the distance of their centres again.")
    slant = asin((larger - smaller) / (2 * centres))
    return 2 * centres * cos(slant) + pi * (larger + smaller) / 2 + slant * (larger - smaller)


def centre_distance(length: float, larger: float, smaller: float) -> float:
    """Distance of the centres from the belt's length along its pitch line; inverse of `belt_length`, by Newton's steps.

    ValueError where the belt is too short for its pulleys.

    >>> round(centre_distance(294.248, 30, 30), 2)
    100.0
    """
    rest = length - pi * (larger + smaller) / 2
    if rest <= larger - smaller:
        raise ValueError("So short a belt does not go round both pulleys.")
    centres = (rest + sqrt(rest**2 - (larger - smaller) ** 2)) / 4 + (larger - smaller) / 4
    for _ in range(50):
        slope = 2 * cos(asin((larger - smaller) / (2 * centres)))
        centres -= (belt_length(centres, larger, smaller) - length) / slope
    return centres
