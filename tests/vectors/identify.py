"""What an unknown screw may be, from its measured diameter and pitch."""

from __future__ import annotations

from dataclasses import dataclass
from math import cbrt, sqrt

from generator.standards.threads import THREADS, Thread

WEAR_MM = 0.05
"What wear and a screw's crushed crests may take off its diameter beyond the standard's tolerance; from memory."

OVER_MM = 0.02
"How far a reading may lie over the nominal diameter: calliper and plating; from memory."

PITCH_SHARE = 0.025
"How far a pitch measured over several turns may be out, as a share of it; from memory."


@dataclass(frozen=True, slots=True)
class Candidate:
    """One listed thread set against a measured screw."""

    thread: Thread
    diameter_error_mm: float
    "Measured less nominal: a little below zero on a sound screw."
    pitch_error_mm: float
    "Measured less nominal."
    allowance_mm: float
    "How far under nominal a used screw of this thread may measure."
    misfit: float
    "How far outside the allowances, in allowances: 1 or less fits."

    @property
    def fits(self) -> bool:
        """True where both readings lie within the allowances."""
        return self.misfit <= 1


def under_size(pitch_mm: float) -> float:
    """How far under nominal the crest of a used external thread may measure, mm.

    ISO 965-1, tolerance 6g (formulas from memory): deviation 15 + 11 P and tolerance 180 P^(2/3) - 3.15 / sqrt P,
    in micrometres, and `WEAR_MM` on top. Unified class 2A comes within a hundredth of it.

    >>> round(under_size(0.7), 3)
    0.211
    """
    deviation = 15 + 11 * pitch_mm
    tolerance = 180 * cbrt(pitch_mm * pitch_mm) - 3.15 / sqrt(pitch_mm)
    return (deviation + tolerance) / 1000 + WEAR_MM


def identify(diameter_mm: float, pitch_mm: float, count: int = 5) -> tuple[Candidate, ...]:
    """The listed threads that come nearest to a measured external thread, best first.

    ValueError for readings that no screw has.

    >>> [(c.thread.name, c.fits) for c in identify(4.30, 0.635, 2)]
    [('11/64-40', True), ('M4', False)]
    """
    if not 0 < pitch_mm < diameter_mm < float("inf"):
        raise ValueError(
            f"No screw measures {diameter_mm:g} mm with a pitch of {pitch_mm:g} mm: "
            "the pitch is more than zero and less than the diameter."
        )
    found = (_candidate(thread, diameter_mm, pitch_mm) for thread in THREADS.values())
    return tuple(sorted(found, key=lambda c: (c.misfit, abs(c.diameter_error_mm), c.thread.name))[:count])


def _candidate(thread: Thread, diameter_mm: float, pitch_mm: float) -> Candidate:
    nominal, pitch = float(thread.diameter_mm), float(thread.pitch_mm)
    under, middle = under_size(pitch), (OVER_MM - under_size(pitch)) / 2
    diameter_error, pitch_error = diameter_mm - nominal, pitch_mm - pitch
    across = abs(diameter_error - middle) / ((under + OVER_MM) / 2)
    along = abs(pitch_error) / (PITCH_SHARE * pitch)
    return Candidate(thread, diameter_error, pitch_error, under, max(across, along))
