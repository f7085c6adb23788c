"""Screws that start in each other's holes and do not belong there."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.standards.threads import THREADS, Thread

DIAMETER_MM = Fraction(1, 4)
PITCH_SHARE = Fraction(1, 5)
"""Two threads start in each other where they are this near in diameter and in pitch (as a share of the coarser).

A rule of this book, drawn to take in the pairs that the trade warns of; common practice, from memory.
"""

SAME_PITCH = Fraction(1, 50)
"Pitches this near, as a share, run together over the few turns of a short screw; then its size is the fault."


@dataclass(frozen=True, slots=True)
class Lookalike:
    """A listed thread that starts where another belongs."""

    thread: Thread
    diameter_mm: Fraction
    "Its diameter less the other's, mm."
    out_of_step_mm: Fraction
    "How far the two threads part at each turn, mm; 0 where the pitch is the same."
    says: str


def lookalikes(thread: Thread) -> tuple[Lookalike, ...]:
    """Listed threads that are taken for this one, those that part slowest first: they go furthest before they jam.

    >>> from generator.standards.notation import parse_thread
    >>> for found in lookalikes(parse_thread("9/64-40"))[:2]:
    ...     print(found.says)
    6-40 starts in place of 9/64-40 and does not belong: same pitch but 0.07 mm thinner, it sits loose and strips.
    M3.5 starts in place of 9/64-40 and does not belong: the threads part by 0.04 mm at each turn, it jams and cuts the hole.
    """
    found = (_lookalike(thread, other) for other in THREADS.values() if _starts(thread, other))
    return tuple(sorted(found, key=lambda like: (like.out_of_step_mm, abs(like.diameter_mm), like.thread.name)))


def _starts(thread: Thread, other: Thread) -> bool:
    apart = abs(thread.diameter_mm - other.diameter_mm)
    step = abs(thread.pitch_mm - other.pitch_mm)
    near = apart <= DIAMETER_MM and step <= PITCH_SHARE * max(thread.pitch_mm, other.pitch_mm)
    return near and bool(apart or step)


def _lookalike(thread: Thread, other: Thread) -> Lookalike:
    apart, step = other.diameter_mm - thread.diameter_mm, abs(other.pitch_mm - thread.pitch_mm)
    why = _by_size(apart, step) if step <= SAME_PITCH * thread.pitch_mm else _by_pitch(step)
    says = f"{other.name} starts in place of {thread.name} and does not belong: {why}."
    return Lookalike(other, apart, step, says)


def _by_size(apart: Fraction, step: Fraction) -> str:
    pitch = "nearly the same pitch" if step else "same pitch"
    if apart < 0:
        return f"{pitch} but {float(-apart):.2f} mm thinner, it sits loose and strips"
    return f"{pitch} but {float(apart):.2f} mm thicker, it starts tight and jams"


def _by_pitch(step: Fraction) -> str:
    return f"the threads part by {float(step):.2f} mm at each turn, it jams and cuts the hole"
