"""Which gear a gear is, from its outside diameter and teeth; two gears' shafts; play of the teeth."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, fsum, radians
from typing import Literal

INCH_MM = 25.4

MODULES = (0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5)
"First choice of modules, mm: ISO 54, from memory."
PITCHES = (96, 80, 72, 64, 48, 40, 32, 24, 20, 16, 12, 10)
"Diametral pitches in use, teeth to the inch of pitch diameter; from memory."
System = Literal["module", "diametral pitch"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A gear that the measured one can be."""

    system: System
    size: float
    "Module in mm, or teeth to the inch."
    module: float
    "mm."
    outside: float
    "Outside diameter of such a gear, mm."
    error: float
    "Measured less that, mm; negative: the measured one is smaller."


def outside_diameter(module: float, teeth: int, helix: float = 0.0) -> float:
    """Outside diameter in mm of a full-depth gear: m (z / cos b + 2), m the normal module, b the helix angle.

    >>> outside_diameter(1, 30), round(outside_diameter(1, 30, 45), 2)
    (32.0, 44.43)
    """
    return module * (teeth / cos(radians(helix)) + 2)


def candidates(outside: float, teeth: int, helix: float = 0.0, shown: int = 4) -> tuple[Candidate, ...]:
    """The gears nearest to a measured outside diameter in mm, best first.

    >>> [f"{c.system} {c.size:g}" for c in candidates(32.0, 30)][:2]
    ['module 1', 'diametral pitch 24']
    """
    sizes: list[tuple[System, float, float]] = [("module", m, m) for m in MODULES]
    sizes += [("diametral pitch", p, INCH_MM / p) for p in PITCHES]
    found = (_candidate(outside, teeth, helix, *size) for size in sizes)
    return tuple(sorted(found, key=lambda c: abs(c.error))[:shown])


def _candidate(outside: float, teeth: int, helix: float, system: System, size: float, module: float) -> Candidate:
    whole = outside_diameter(module, teeth, helix)
    return Candidate(system, size, module, whole, outside - whole)


def shaft_distance(module: float, teeth: tuple[int, int], helixes: tuple[float, float] = (0.0, 0.0)) -> float:
    """Distance of two shafts in mm, each gear's pitch diameter m z / cos b; for crossed shafts the shortest.

    >>> shaft_distance(1, (30, 60))
    45.0
    """
    return fsum(module * z / cos(radians(b)) for z, b in zip(teeth, helixes, strict=True)) / 2
