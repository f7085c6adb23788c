"""Screw threads that turn up on sewing machines, each with the table it comes from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.standards.quantity import format_number

Series = Literal["unified", "metric", "trade", "unknown"]

INCH = Fraction("25.4")


@dataclass(frozen=True, slots=True)
class Thread:
    """One screw thread: nominal major diameter and pitch."""

    name: str
    "Canonical notation: 10-32, 1/4-20, 11/64-40, M4 (coarse) or M4x0.5."
    diameter_mm: Fraction
    "Nominal major diameter, mm, exact."
    pitch_mm: Fraction
    "mm for one turn, exact."
    series: Series
    "unknown: no table here lists it."
    source: str
    "Id of the table's source; empty for an unknown series."
    memory: bool = False
    "True where the row is recalled, not read from a copy of its source."

    @property
    def threads_per_inch(self) -> Fraction:
        """Turns for one inch of travel."""
        return INCH / self.pitch_mm

    @property
    def is_metric(self) -> bool:
        """True for M notation, listed or not."""
        return self.name.startswith("M")


def number_size(number: int) -> Fraction:
    """Diameter in inches of a number size, D = 0.060 + 0.013 n (ASME B1.1).

    >>> float(number_size(10))
    0.19
    """
    return Fraction(60 + 13 * number, 1000)


def diameter_of(size: str) -> Fraction:
    """Diameter in mm of an inch size: a number ("10") or a fraction ("11/64", "1 1/4").

    >>> float(diameter_of("10")), float(diameter_of("1/4"))
    (4.826, 6.35)
    """
    return INCH * (number_size(int(size)) if size.isdecimal() else sum(map(Fraction, size.split())))


def inch_thread(size: str, per_inch: int, series: Series, source: str, memory: bool = False) -> Thread:
    """A thread of an inch size as `diameter_of` reads it."""
    return Thread(f"{size}-{per_inch}", diameter_of(size), INCH / per_inch, series, source, memory)


def metric_thread(diameter: Fraction, pitch: Fraction, series: Series, source: str, memory: bool = False) -> Thread:
    """A thread of M notation; the pitch is left out of the name where it is the coarse one."""
    size = f"M{format_number(diameter)}"
    name = size if COARSE_PITCH.get(diameter) == pitch else f"{size}x{format_number(pitch)}"
    return Thread(name, diameter, pitch, series, source, memory)


# Size, threads per inch coarse (UNC) and fine (UNF), recalled or read. ASME B1.1.
_UNIFIED = (
    ("0", None, 80, False),
    ("1", 64, 72, False),
    ("2", 56, 64, False),
    ("3", 48, 56, False),
    ("4", 40, 48, False),
    ("5", 40, 44, False),
    ("6", 32, 40, False),
    ("8", 32, 36, False),
    ("10", 24, 32, False),
    ("12", 24, 28, True),
    ("1/4", 20, 28, False),
    ("5/16", 18, 24, False),
    ("3/8", 16, 24, False),
    ("7/16", 14, 20, True),
    ("1/2", 13, 20, False),
)

# Diameter and coarse pitch, ISO 261: first choice read, second choice recalled.
_COARSE = {
    "1.6": "0.35", "2": "0.4", "2.5": "0.45", "3": "0.5", "4": "0.7",
    "5": "0.8", "6": "1", "8": "1.25", "10": "1.5", "12": "1.75",
}  # fmt: skip
_COARSE_RECALLED = {"1.8": "0.35", "2.2": "0.45", "3.5": "0.6", "4.5": "0.75", "7": "1"}

# Fine pitches of ISO 261, recalled.
_FINE = (
    ("2", "0.25"), ("2.5", "0.35"), ("3", "0.35"), ("3.5", "0.35"), ("4", "0.5"), ("4.5", "0.5"),
    ("5", "0.5"), ("6", "0.75"), ("8", "0.75"), ("8", "1"), ("10", "0.75"), ("10", "1"),
    ("10", "1.25"), ("12", "1"), ("12", "1.25"), ("12", "1.5"),
)  # fmt: skip

# Metric pairs older than ISO 261 that older machines still carry, recalled.
_OLDER_METRIC = (("2.3", "0.4"), ("2.6", "0.45"), ("3", "0.6"), ("4", "0.75"), ("5", "0.9"))

# Sewing trade threads: common practice; the withdrawn JIS B 0226 listed such threads.
_TRADE = (
    ("3/32", 56), ("1/8", 44), ("9/64", 40), ("11/64", 40), ("3/16", 28), ("3/16", 32), ("15/64", 28),
)  # fmt: skip

COARSE_PITCH: dict[Fraction, Fraction] = {
    Fraction(d): Fraction(p) for d, p in {**_COARSE, **_COARSE_RECALLED}.items()
}
"Metric diameter -> the pitch meant when none is written, mm."

UNIFIED_PITCHES: dict[str, tuple[int | None, int]] = {size: (unc, unf) for size, unc, unf, _ in _UNIFIED}
"Unified size -> threads per inch coarse (UNC) and fine (UNF)."


def _metric_rows(pairs: Iterable[tuple[str, str]], source: str, memory: bool) -> tuple[Thread, ...]:
    return tuple(metric_thread(Fraction(d), Fraction(p), "metric", source, memory) for d, p in pairs)


UNIFIED: tuple[Thread, ...] = tuple(
    inch_thread(size, per_inch, "unified", "asme-b1.1", memory)
    for size, coarse, fine, memory in _UNIFIED
    for per_inch in (coarse, fine)
    if per_inch
)

METRIC: tuple[Thread, ...] = (
    *_metric_rows(_COARSE.items(), "iso-261", memory=False),
    *_metric_rows(_COARSE_RECALLED.items(), "iso-261", memory=True),
    *_metric_rows(_FINE, "iso-261", memory=True),
    *_metric_rows(_OLDER_METRIC, "from-memory", memory=True),
)

TRADE: tuple[Thread, ...] = tuple(
    inch_thread(size, per_inch, "trade", "common-practice") for size, per_inch in _TRADE
)

THREADS: dict[str, Thread] = {thread.name: thread for thread in (*UNIFIED, *METRIC, *TRADE)}
"Every thread listed here, by canonical name."
