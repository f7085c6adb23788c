"""What the standards and the geometry add to a fastener note."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from generator.analysis.fasteners.flats import (
    advice,
    flat_depth,
    flat_width,
    lift_in_words,
    turns_to_clear,
)
from generator.analysis.fasteners.near_miss import near_misses
from generator.records.model import Fastener
from generator.standards.agreement import kind_of, socket_size
from generator.standards.keys import key_for
from generator.standards.notation import parse_thread
from generator.standards.quantity import Quantity
from generator.standards.threads import Thread

_SHOWN = 2
"Near misses worth knowing at the bench: the nearest of each side."


@dataclass(frozen=True, slots=True)
class FastenerFacts:
    """One joint, worked out."""

    thread: Thread | None
    "None where the note names no thread or one that no table has."
    key_said: str
    near_misses: tuple[str, ...]
    shaft_mm: float | None
    flat_width_mm: float | None
    flat_depth_mm: float | None
    turns: float | None
    turns_said: str
    "How far to back it out and the figures that say so; empty where they are not known."


def fastener_facts(note: Fastener) -> FastenerFacts:
    """Works out one note. A thread or flat that cannot be read leaves its facts empty."""
    thread = _thread(note.thread)
    shaft = _mm(note.shaft)
    width, depth = _flat(note, shaft)
    turns, turns_said = _turns(thread, depth)
    return FastenerFacts(
        thread,
        "" if note.key_confirmed else _key_said(note.kind, note.drive or "", thread),
        _near(note.drive or ""),
        shaft,
        width,
        depth,
        turns,
        turns_said,
    )


def _turns(thread: Thread | None, depth: float | None) -> tuple[float | None, str]:
    """Turns that clear the flat, and the figures that say so; None and empty where they are not known."""
    if not (thread and depth):
        return None, ""
    pitch = float(thread.pitch_mm)
    turns = turns_to_clear(depth, pitch)
    return turns, f"{advice(turns)} {lift_in_words(depth, thread.name, pitch)}" if turns else ""


@cache
def _thread(written: str | None) -> Thread | None:
    """A thread as a note writes it; a book has few of them, on very many joints."""
    try:
        return parse_thread(written) if written else None
    except ValueError:
        return None


def _mm(length: str | None) -> float | None:
    return Quantity.parse(length).number("mm") if length else None


def _flat(note: Fastener, shaft: float | None) -> tuple[float | None, float | None]:
    """Width and depth of the flat; the one that the note lacks is reckoned from the shaft."""
    if note.flat is None or shaft is None:
        return None, None
    try:
        width, depth = _mm(note.flat.width), _mm(note.flat.depth)
        if width is not None:
            return width, flat_depth(shaft, width)
        return (None, None) if depth is None else (flat_width(shaft, depth), depth)
    except ValueError:
        return None, None


@cache
def _key_said(kind_said: str, drive: str, thread: Thread | None) -> str:
    kind = kind_of(kind_said)
    key = key_for(thread, kind) if thread and kind else None
    if key is None or socket_size(drive) is None:
        return ""
    return "By common practice; measure it." if key.inferred else f"As the standard has it ({key.source})."


@cache
def _near(drive: str) -> tuple[str, ...]:
    """By the drive as it is written: the words name the socket in its own unit."""
    socket = socket_size(drive)
    return tuple(miss.says for miss in near_misses(socket)[:_SHOWN]) if socket else ()
