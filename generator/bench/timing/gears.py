"""The hook gears of a family: which gears they can be, and how far their shafts stand apart."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.timing.gears import Candidate, candidates, shaft_distance
from generator.family_view import FamilyView
from generator.records.figures import in_unit, length, number


@dataclass(frozen=True, slots=True)
class Gears:
    """The gear on the hook's shaft, and its mate."""

    teeth: int
    outside: float
    "Measured, mm."
    helix: float
    "Degrees."
    can_be: tuple[Candidate, ...]
    "Best first."
    mate: int | None
    distance: float | None
    "mm from shaft to shaft with the best of them; None without the mate's teeth."


def gears(view: FamilyView) -> Gears | None:
    """What the measured gear can be."""
    teeth, outside = number(view.family, "hook_gear_teeth"), length(view.family, "hook_gear_outside")
    if not (teeth and outside):
        return None
    helix, mate = in_unit(view.family, "hook_gear_helix", "deg") or 0.0, number(view.family, "hook_drive_teeth")
    found = candidates(outside, int(teeth), helix)
    apart = shaft_distance(found[0].module, (int(teeth), int(mate)), (helix, helix)) if mate else None
    return Gears(int(teeth), outside, helix, found, int(mate) if mate else None, apart)
