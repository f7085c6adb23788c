"""A toothed belt a tooth off."""

from __future__ import annotations

from generator.analysis.motion import slider_crank_rise
from generator.analysis.reckon import belt_tooth_degrees
from generator.analysis.timing.needle_bar import Bar, Row


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
    return slider_crank_rise(bar.stroke, bar.rod, right.degrees + degrees)
