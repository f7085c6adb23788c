"""A family's timing: its own figures and its settings' targets, worked out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from generator.analysis.reckon import stitch_length, stitches_per_inch
from generator.analysis.timing.belts import rise_when_off, tooth_at_hand_wheel
from generator.analysis.timing.hook import along_path, play_degrees, swing_rate_at_most
from generator.analysis.timing.needle_bar import Bar, Row, rise_table, row
from generator.analysis.timing.swings import Swings, even_middle, swings
from generator.family_view import FamilyView
from generator.records.figures import TIMES, in_unit, length, number, written
from generator.records.model import Family, Setting, Target
from generator.standards.needles import NEEDLES
from generator.standards.quantity import Quantity

Range = tuple[float, float]

USED = (
    "needle_bar_stroke",
    "connecting_rod",
    "hook_turns_per_stitch",
    "hook_swing",
    "hook_radius",
    "upper_pulley_teeth",
    "lower_pulley_teeth",
    "widest_zigzag",
    "first_swing",
    "longest_stitch",
    "differential_range",
)
"Figures of a family that timing is worked out from."
_GAPS = ("hook-needle-gap", "lower-looper-gap")
_HEIGHT = "needle-bar-height"
_PLAY = "hook-gear-mesh"
_NM = re.compile(r"Nm (\d+) to (\d+)")


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


@dataclass(frozen=True, slots=True)
class Hook:
    """The hook against the hand wheel."""

    rate: float
    "Degrees of hook for one of the hand wheel; of a swinging hook the most."
    swinging: bool
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
class Feed:
    """The longest stitch, both ways, and the differential."""

    longest_mm: float | None
    longest_spi: float | None
    ten_mm: float | None
    "Ten of the longest stitches."
    differential: Range | None


@dataclass(frozen=True, slots=True)
class Timing:
    """What a family's figures say of its timing. Lengths in mm, angles in degrees."""

    bar: Bar | None
    setting: Setting | None
    "The setting that times the hook or looper."
    window: Range | None
    "Rise of the bar as the point comes to the needle, by its target."
    height: Range | None
    "Point above the eye then."
    gap: Range | None
    needle: int | None
    "Metric number that the drawing has: the middle of what the family takes."
    table: tuple[Row, ...]
    middle: Row | None
    hook: Hook | None
    backlash: Backlash | None
    tooth: Tooth | None
    swings: Swings | None
    even: Row | None
    "Middle timing that has both swings evenly about the middle of the window."
    first: str | None
    "The swing that the point comes to first."
    feed: Feed
    missing: tuple[str, ...]
    "Names of figures that are not recorded."


def timing(view: FamilyView) -> Timing:
    """Everything that the figures allow; what they do not is None."""
    family = view.family
    bar, window = _bar(family), _range(_target(view, TIMES))
    middle = row(bar, sum(window) / 2) if bar and window else None
    rate = _rate(family)
    hook = _hook(family, rate, middle)
    zigzag = _swings(family, bar, middle, rate)
    return Timing(
        bar=bar,
        setting=next((view.settings[s] for s in TIMES if s in view.settings), None),
        window=window,
        height=None if TIMES[1] in view.settings else _range(_target(view, (_HEIGHT,))),
        gap=_range(_target(view, _GAPS)),
        needle=_needle(family),
        table=rise_table(bar, *window) if bar and window else (),
        middle=middle,
        hook=hook,
        backlash=_backlash(view, rate, middle),
        tooth=_tooth(family, bar, middle, rate),
        swings=zigzag,
        even=_even(bar, middle, zigzag),
        first=written(family, "first_swing"),
        feed=_feed(family),
        missing=tuple(_missing(view)),
    )


def _target(view: FamilyView, settings: Iterable[str]) -> Target | None:
    return next((view.settings[s].target for s in settings if s in view.settings), None)


def _range(target: Target | None) -> Range | None:
    if target is None or not (target.low and target.high):
        return None
    low, high = Quantity.parse(target.low), Quantity.parse(target.high)
    return (low.number("mm"), high.number("mm")) if low.dimension == high.dimension == "length" else None


def _bar(family: Family) -> Bar | None:
    stroke, rod = length(family, "needle_bar_stroke"), length(family, "connecting_rod")
    return Bar(stroke, rod) if stroke and rod else None


def _rate(family: Family) -> float | None:
    """Degrees of hook for one of the hand wheel."""
    turns, swing = number(family, "hook_turns_per_stitch"), in_unit(family, "hook_swing", "deg")
    return turns or (swing_rate_at_most(swing) if swing else None)


def _hook(family: Family, rate: float | None, middle: Row | None) -> Hook | None:
    if rate is None or middle is None:
        return None
    turned, radius = rate * 0.1 / middle.rate, length(family, "hook_radius")
    return Hook(rate, "hook_swing" in family.figures, turned, along_path(radius, turned) if radius else None)


def _backlash(view: FamilyView, rate: float | None, middle: Row | None) -> Backlash | None:
    play, radius = _range(_target(view, (_PLAY,))), length(view.family, "hook_radius")
    if not (play and radius and rate and middle):
        return None
    turned = play_degrees(play[1], radius)
    return Backlash(play[1], turned, turned / rate * middle.rate)


def _swings(family: Family, bar: Bar | None, middle: Row | None, rate: float | None) -> Swings | None:
    """Only for hooks that go round: how fast a swinging one goes as it passes is not known well enough."""
    width, radius = length(family, "widest_zigzag"), length(family, "hook_radius")
    if not (bar and middle and rate and width and radius) or "hook_swing" in family.figures:
        return None
    return swings(bar, middle, width, along_path(radius, rate))


def _even(bar: Bar | None, middle: Row | None, zigzag: Swings | None) -> Row | None:
    """None too where the swings are so far apart that no timing serves both evenly."""
    if not (bar and middle and zigzag):
        return None
    try:
        return even_middle(bar, middle.rise, zigzag.degrees)
    except ValueError:
        return None


def _tooth(family: Family, bar: Bar | None, middle: Row | None, rate: float | None) -> Tooth | None:
    upper = number(family, "upper_pulley_teeth")
    if not (upper and bar and middle):
        return None
    step = tooth_at_hand_wheel(upper)
    early, late = (rise_when_off(bar, middle, side * step) for side in (-1, 1))
    return Tooth(step, rate * step if rate else None, early, late, step > middle.degrees)


def _feed(family: Family) -> Feed:
    figure, spread = written(family, "longest_stitch"), written(family, "differential_range")
    if figure is None or " to " in figure:
        longest = None
    else:
        said = Quantity.parse(figure)
        longest = said.number("mm") if said.dimension == "length" else stitch_length(said.number("spi"))
    low, _, high = (spread or "").partition(" to ")
    return Feed(
        longest,
        stitches_per_inch(longest) if longest else None,
        10 * longest if longest else None,
        (float(low), float(high)) if low and high else None,
    )


def _needle(family: Family) -> int | None:
    """The size in the table nearest to the middle of what the family takes."""
    found = _NM.search((family.needle.system if family.needle else None) or "")
    if found is None:
        return None
    middle = (int(found[1]) + int(found[2])) / 2
    return min(NEEDLES, key=lambda n: abs(n.metric - middle)).metric


def _missing(view: FamilyView) -> Iterable[str]:
    """Figures that would say more of this family."""
    figures = view.family.figures
    yield from (name for name in ("needle_bar_stroke", "connecting_rod") if name not in figures)
    if TIMES[0] in view.settings and not view.family.features.get("vibrating_shuttle"):
        if not {"hook_turns_per_stitch", "hook_swing"} & figures.keys():
            yield "hook_turns_per_stitch"
        if "hook_radius" not in figures:
            yield "hook_radius"
    if view.family.features.get("zigzag") and "hook_radius" in figures and "first_swing" not in figures:
        yield "first_swing"
    if view.family.features.get("toothed_belt"):
        yield from (name for name in ("upper_pulley_teeth", "lower_pulley_teeth") if name not in figures)
