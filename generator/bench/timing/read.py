"""What a family's records say of its timing, as numbers. Lengths in mm, angles in degrees."""

from __future__ import annotations

import re
from collections.abc import Iterable

from generator.analysis.timing.hook import Hook, Swinging, Turning
from generator.analysis.timing.needle_bar import Bar
from generator.family_view import FamilyView
from generator.records.figures import TIMES, in_unit, length, number
from generator.records.model import Family, Setting, Target
from generator.standards.needles import NEEDLES
from generator.standards.quantity import Quantity

Range = tuple[float, float]

GAPS = ("hook-needle-gap", "lower-looper-gap")
HEIGHT = ("needle-bar-height",)
LOOPER = "looper_above_eye"
PLAY = ("hook-gear-mesh",)
FEED_PLAY = ("feed-gear-mesh",)
SINKING = ("feed-timing",)
TEETH = ("feed-height",)
REVERSE = "reverse-length-match"
_NM = re.compile(r"Nm (\d+) to (\d+)")


def target(view: FamilyView, settings: Iterable[str]) -> Target | None:
    """The target of the first of the settings that the family has."""
    return next((view.settings[s].target for s in settings if s in view.settings), None)


def times(view: FamilyView) -> Setting | None:
    """The setting that times the hook or looper."""
    return next((view.settings[s] for s in TIMES if s in view.settings), None)


def ends(found: Target | None) -> Range | None:
    """Both ends of a target that is a length."""
    if found is None or not (found.low and found.high):
        return None
    low, high = Quantity.parse(found.low), Quantity.parse(found.high)
    return (low.number("mm"), high.number("mm")) if low.dimension == high.dimension == "length" else None


def window(view: FamilyView) -> Range | None:
    """Rises at which the hook is timed."""
    return ends(target(view, TIMES))


def height(view: FamilyView) -> Range | None:
    """Point above the eye as it passes; a looper's needle bar is set by another measure, and its height is one figure."""
    if TIMES[1] not in view.settings:
        return ends(target(view, HEIGHT))
    above = length(view.family, LOOPER)
    return None if above is None else (above, above)


def bar(family: Family) -> Bar | None:
    """The needle bar's drive."""
    stroke, rod = length(family, "needle_bar_stroke"), length(family, "connecting_rod")
    return Bar(stroke, rod, length(family, "crank_offset") or 0.0) if stroke and rod else None


def hook(family: Family) -> Hook | None:
    """How the hook or the shuttle goes; None too for one that swings, where it is not known when it sets out."""
    turns, swing = number(family, "hook_turns_per_stitch"), in_unit(family, "hook_swing", "deg")
    start = in_unit(family, "hook_start", "deg")
    if turns:
        return Turning(turns)
    return Swinging(swing, start) if swing and start is not None else None


def needle(family: Family) -> int | None:
    """The size in the table nearest to the middle of what the family takes."""
    found = _NM.search((family.needle.system if family.needle else None) or "")
    if found is None:
        return None
    middle = (int(found[1]) + int(found[2])) / 2
    return min(NEEDLES, key=lambda n: abs(n.metric - middle)).metric
