"""The motor of a family against its hand wheel."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.timing.belts import motor_speed
from generator.family_view import FamilyView
from generator.records.figures import in_unit, length


@dataclass(frozen=True, slots=True)
class Motor:
    """Speeds by the pulleys."""

    ratio: float
    "Turns of the motor for one of the hand wheel."
    stitches: float
    "In a minute, at most."
    speed: float
    "Turns of the motor in a minute then."


def motor(view: FamilyView) -> Motor | None:
    """The motor at top speed; None without both pulleys and the speed."""
    wheel, small = length(view.family, "wheel_pulley"), length(view.family, "motor_pulley")
    stitches = in_unit(view.family, "top_speed", "spm")
    if not (wheel and small and stitches):
        return None
    return Motor(wheel / small, stitches, motor_speed(stitches, wheel, small))
