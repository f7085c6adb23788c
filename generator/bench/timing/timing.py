"""Everything that a family's figures say of its timing."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.timing.hook import comes_to
from generator.analysis.timing.needle_bar import Bar, Row, rise_table, row
from generator.analysis.timing.swings import Swings
from generator.bench.timing import hook, read
from generator.bench.timing.feed import Feed, feed
from generator.bench.timing.gears import Gears, gears
from generator.bench.timing.hook import Backlash, Instant, Rate, Tooth
from generator.bench.timing.motor import Motor, motor
from generator.bench.timing.read import Range
from generator.bench.timing.wanted import missing
from generator.family_view import FamilyView
from generator.records.figures import length, written
from generator.records.model import Setting

TURN_FROM, TURN_TO = -30, 60
"Degrees of hand wheel about the needle bar's lowest over which the hook is followed."


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
    hook: Rate | None
    instants: tuple[Instant, Instant, Instant] | None
    "The point before the needle, at it and past it; None where its path is not known."
    followed: tuple[Instant, ...]
    "Needle and point at every degree from `TURN_FROM` to `TURN_TO`."
    backlash: Backlash | None
    tooth: Tooth | None
    swings: Swings | None
    even: Row | None
    "Middle timing that has both swings evenly about the middle of the window."
    first: str | None
    "The swing that the point comes to first."
    gears: Gears | None
    feed: Feed
    motor: Motor | None
    missing: tuple[str, ...]
    "Names of figures that are not recorded."


def timing(view: FamilyView) -> Timing:
    """Everything that the figures allow; what they do not is None."""
    bar, window = read.bar(view.family), read.window(view)
    middle = row(bar, sum(window) / 2) if bar and window else None
    going = hook.rate(view, middle)
    swings, even = hook.zigzag(view, bar, middle)
    return Timing(
        bar=bar,
        setting=read.times(view),
        window=window,
        height=read.height(view),
        gap=read.ends(read.target(view, read.GAPS)),
        needle=read.needle(view.family),
        table=rise_table(bar, *window) if bar and window else (),
        middle=middle,
        hook=going,
        instants=_instants(view, bar, middle),
        followed=hook.instants(view, bar, middle, tuple(map(float, range(TURN_FROM, TURN_TO + 1)))),
        backlash=hook.backlash(view, going, middle),
        tooth=hook.tooth(view, bar, middle),
        swings=swings,
        even=even,
        first=written(view.family, "first_swing"),
        gears=gears(view),
        feed=feed(view, bar),
        motor=motor(view),
        missing=missing(view),
    )


def _instants(view: FamilyView, bar: Bar | None, middle: Row | None) -> tuple[Instant, Instant, Instant] | None:
    going, radius = read.hook(view.family), length(view.family, "hook_radius")
    if not (bar and middle and going and radius):
        return None
    before, after = (comes_to(going, radius, middle.degrees, side * hook.SIDE) for side in (-1, 1))
    found = hook.instants(view, bar, middle, (before, middle.degrees, after))
    return found[0], found[1], found[2]
