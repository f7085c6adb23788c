"""Drills for a thread by the workshop rules."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.standards.threads import INCH, Thread

_CLEARANCE = Fraction(11, 10)


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill diameter and the rule it comes from."""

    mm: Fraction
    "Diameter, mm, exact by the rule; take the nearest drill you have."
    rule: str
    source: str

    @property
    def inches(self) -> float:
        """Diameter in inches."""
        return float(self.mm / INCH)


def tapping_drill(thread: Thread) -> Drill:
    """Drill before tapping: major diameter less pitch, about three quarters of a full thread.

    >>> from generator.standards.notation import parse_thread
    >>> float(tapping_drill(parse_thread("M4")).mm)
    3.3
    """
    return Drill(thread.diameter_mm - thread.pitch_mm, "diameter less pitch", "common-practice")


def clearance_drill(thread: Thread) -> Drill:
    """Drill for a hole that the screw passes with room: a tenth over the major diameter.

    >>> from generator.standards.notation import parse_thread
    >>> float(clearance_drill(parse_thread("M5")).mm)
    5.5
    """
    return Drill(thread.diameter_mm * _CLEARANCE, "diameter and a tenth", "common-practice")
