"""The hook of a family against its hand wheel: rate, play, a tooth of the belt, the swings of a zigzag."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.timing.belts import centre_distance, pitch_diameter, rise_when_off, tooth_at_hand_wheel
from generator.analysis.timing.hook import along_path, play_degrees, point_at, swing_rate_at_most
from generator.analysis.timing.needle_bar import Bar, Row, rise
from generator.analysis.timing.swings import Swings, even_middle, swings
from generator.bench.timing import read
from generator.family_view import FamilyView
from generator.records.figures import in_unit, length, number, written
from generator.records.model import Family
from generator.standards.belts import BELT_PITCH_MM

SIDE = 2.0
"mm along its path that the point is before and past the needle in the first and last instant that are drawn."


@dataclass(frozen=True, slots=True)
class Tooth:
    """A belt one tooth off."""

    degrees: float
    "Of the hand wheel, on either pulley."
    hook_degrees: float | None
    early: float
    "Height of the bar above its lowest as the point comes, a tooth early, mm."
    late: float
    "The same a tooth late, mm."
    early_before: bool
    "Whether a tooth early is before bottom dead centre."
    centres: float | None
    "mm from shaft to shaft by the belt's own teeth; None where they are not recorded."


@dataclass(frozen=True, slots=True)
class Rate:
    """The hook against the hand wheel as the point passes."""

    rate: float
    "Degrees of hook for one of the hand wheel."
    swinging: bool
    at_most: bool
    "Whether the rate is the fastest of the swing, since it is not known when the hook sets out."
    degrees_per_tenth: float
    "Degrees of hook while the bar rises 0.1 mm, in the middle of the window."
    path_per_tenth: float | None
    "mm along the point's path meanwhile; None without the radius."


@dataclass(frozen=True, slots=True)
class Backlash:
    """The most play that the target allows at the rim of the hook."""

    play: float
    "mm."
    hook_degrees: float
    rise: float
    "mm of rise that it is worth in the middle of the window."


@dataclass(frozen=True, slots=True)
class Instant:
    """Needle and point at one angle of the hand wheel."""

    degrees: float
    "After bottom dead centre."
    rise: float
    "mm."
    past: float
    "mm that the point is past the needle along its path; negative: before it."
    above: float | None
    "mm of the point above the top of the eye; negative: below it."


def rate(view: FamilyView, middle: Row | None) -> Rate | None:
    """The rate in the middle of the window, or of a swinging hook the most."""
    found, swing = read.hook(view.family), in_unit(view.family, "hook_swing", "deg")
    if middle is None or not (found or swing):
        return None
    going = found.rate(middle.degrees) if found else swing_rate_at_most(swing or 0)
    turned, radius = going * 0.1 / middle.rate, length(view.family, "hook_radius")
    path = along_path(radius, turned) if radius else None
    return Rate(going, swing is not None, found is None, turned, path)


def backlash(view: FamilyView, going: Rate | None, middle: Row | None) -> Backlash | None:
    """What the play of the target is worth."""
    play, radius = read.ends(read.target(view, read.PLAY)), length(view.family, "hook_radius")
    if not (play and radius and going and middle):
        return None
    turned = play_degrees(play[1], radius)
    return Backlash(play[1], turned, turned / going.rate * middle.rate)


def tooth(view: FamilyView, bar: Bar | None, middle: Row | None) -> Tooth | None:
    """A tooth of the belt, early and late."""
    upper, hook = number(view.family, "upper_pulley_teeth"), read.hook(view.family)
    if not (upper and bar and middle):
        return None
    step = tooth_at_hand_wheel(upper)
    early, late = (rise_when_off(bar, middle, side * step) for side in (-1, 1))
    turned = hook.turned(middle.degrees + step) - hook.turned(middle.degrees) if hook else None
    return Tooth(step, turned, early, late, step > middle.degrees, _centres(view.family))


def _centres(family: Family) -> float | None:
    pitch = BELT_PITCH_MM.get(written(family, "belt_pitch") or "")
    belt, upper, lower = (number(family, f"{name}_teeth") for name in ("belt", "upper_pulley", "lower_pulley"))
    if not (pitch and belt and upper and lower):
        return None
    larger, smaller = (pitch_diameter(teeth, pitch) for teeth in (max(upper, lower), min(upper, lower)))
    return centre_distance(belt * pitch, larger, smaller)


def zigzag(view: FamilyView, bar: Bar | None, middle: Row | None) -> tuple[Swings | None, Row | None]:
    """The swings, and the middle's timing that has them evenly about the middle of the window."""
    width, radius, hook = length(view.family, "widest_zigzag"), length(view.family, "hook_radius"), read.hook(view.family)
    if not (bar and middle and width and radius and hook):
        return None, None
    try:
        found = swings(bar, middle, width, hook, radius)
        return found, even_middle(bar, middle.rise, width, hook, radius)
    except ValueError:
        return None, None


def instants(view: FamilyView, bar: Bar | None, middle: Row | None, degrees: tuple[float, ...]) -> tuple[Instant, ...]:
    """Needle and point at angles of the hand wheel; empty where the point's path is not known."""
    radius, hook, height = length(view.family, "hook_radius"), read.hook(view.family), read.height(view)
    if not (bar and middle and radius and hook):
        return ()
    found = []
    for angle in degrees:
        risen = rise(bar, angle)
        above = sum(height) / 2 - (risen - middle.rise) if height else None
        found.append(Instant(angle, risen, point_at(hook, radius, middle.degrees, angle), above))
    return tuple(found)


