"""All that is known of one screw, for the command line and the pages alike."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.fasteners.drills import Drill, clearance_drill, tapping_drill
from generator.analysis.fasteners.flats import (
    MARGIN_MM,
    advice,
    flat_depth,
    turns_to_clear,
    whole_quarters,
)
from generator.analysis.fasteners.holding import chart_rows
from generator.analysis.fasteners.lookalikes import Lookalike, lookalikes
from generator.analysis.fasteners.near_miss import NearMiss, near_misses
from generator.standards.holding import SetScrewRow
from generator.standards.keys import Key, Kind, key_for, why_no_key
from generator.standards.threads import Thread


@dataclass(frozen=True, slots=True)
class Backing:
    """How far to back a set screw off one flat."""

    flat_depth_mm: float
    turns_to_clear: float
    "(flat depth + margin) / pitch, as it comes."
    turns_advised: float
    "Rounded up to a quarter turn."
    margin_mm: float
    advice: str


@dataclass(frozen=True, slots=True)
class ScrewAnswer:
    """What the tables and the workshop rules say of one screw."""

    thread: Thread
    kind: Kind
    key: Key | None
    caveat: str
    "A sentence where the key is missing or inferred, else empty."
    near_misses: tuple[NearMiss, ...]
    tapping_drill: Drill
    clearance_drill: Drill
    lookalikes: tuple[Lookalike, ...]
    charts: tuple[SetScrewRow, ...]
    "Seating torque and holding force, for set screws: a guide, shown with its caution."
    backing: Backing | None
    "None unless shaft and flat were given."


def answer(
    thread: Thread, kind: Kind, shaft_mm: float | None = None, flat_mm: float | None = None
) -> ScrewAnswer:
    """Key, near misses, drills and lookalikes of a screw; with shaft and flat width, the turns to back off.

    >>> from generator.standards.notation import parse_thread
    >>> found = answer(parse_thread("10-32"), "set", 8, 4)
    >>> str(found.key.size), round(found.backing.flat_depth_mm, 3), found.backing.turns_advised
    ('3/32 in', 0.536, 1.0)
    """
    key = key_for(thread, kind)
    return ScrewAnswer(
        thread=thread,
        kind=kind,
        key=key,
        caveat=_caveat(thread, kind, key),
        near_misses=near_misses(key.size) if key else (),
        tapping_drill=tapping_drill(thread),
        clearance_drill=clearance_drill(thread),
        lookalikes=lookalikes(thread),
        charts=chart_rows(thread) if kind == "set" else (),
        backing=None if shaft_mm is None or flat_mm is None else _backing(thread, shaft_mm, flat_mm),
    )


def _caveat(thread: Thread, kind: Kind, key: Key | None) -> str:
    if key is None:
        return why_no_key(thread, kind)
    if not key.inferred:
        return ""
    return (
        f"No standard gives a key for {thread.name}; "
        f"this is the key of the nearest standard screw, {key.screw}. Measure it."
    )


def _backing(thread: Thread, shaft_mm: float, flat_mm: float) -> Backing:
    depth = flat_depth(shaft_mm, flat_mm)
    turns = turns_to_clear(depth, float(thread.pitch_mm))
    return Backing(depth, turns, whole_quarters(turns), MARGIN_MM, advice(turns))
