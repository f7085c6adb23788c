"""Needle sizes: the metric number, the older American number, and measured blades."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NeedleSize:
    """One needle size sold under two numbers, as in 90/14."""

    metric: int
    "Metric number, 100 x blade diameter in mm."
    american: int
    "Older American number."
    source: str
    memory: bool = False
    "True where the row is recalled, not read from a copy of its source."

    @property
    def blade_mm(self) -> float:
        """Nominal blade diameter, mm."""
        return self.metric / 100


# Below 19 the two numbers go in step: metric = 60 + 5 (American - 8). Above, they do not.
_IN_STEP = tuple(NeedleSize(60 + 5 * (size - 8), size, "common-practice") for size in range(8, 19))
_ABOVE = tuple(
    NeedleSize(metric, american, "from-memory", memory=True)
    for metric, american in ((120, 19), (125, 20), (130, 21), (140, 22))
)

NEEDLES: tuple[NeedleSize, ...] = (*_IN_STEP, *_ABOVE)
"Smallest first."

JIS_BLADES_MM: dict[int, float] = {9: 0.67, 11: 0.77, 14: 0.92, 16: 1.02}
"Older number -> blade diameter B of JIS B 9012:2000, Table 1, mm. A blade measures 0.02 mm over its metric number."
