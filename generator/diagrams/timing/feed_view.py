"""The dog's path to scale, and needle and dog over one turn of the hand wheel, the dog early and late as well."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.analysis.timing.feed import Dog, Turn
from generator.analysis.timing.needle_bar import Bar, rise
from generator.diagrams import draw, text
from generator.diagrams.draw import num
from generator.diagrams.gauges.sheet import PX_PER_MM, scale_for, scale_words

LEFT, WIDE = 40.0, 280.0
_PATH_TOP, _PATH_ROOM = 24.0, 92.0
NEEDLE_TALL, DOG_TALL = 50.0, 52.0
"Heights of the two fields, px."
STEP = 3
"Degrees between the points of a curve."


@dataclass(frozen=True, slots=True)
class Shown:
    """What is drawn."""

    bar: Bar
    depth: float
    "The needle's point under the plate at its lowest, mm."
    dog: Dog
    turn: Turn
    off: float
    "Degrees by which the dog is drawn early and late."


def svg(shown: Shown, prefix: str) -> str:
    """The drawing as one inline SVG."""
    path, tall = _path(shown.dog)
    needle_top = _PATH_TOP + tall + 32
    dog_top = needle_top + NEEDLE_TALL + 32
    foot = dog_top + DOG_TALL
    body = path + _needle(shown, needle_top) + _dog(shown, dog_top) + _axis(foot)
    return draw.svg(prefix, "Feed dog and needle over one turn", described(shown), (324, foot + 18), body)


def described(shown: Shown) -> str:
    """The drawing in words."""
    turn, dog = shown.turn, shown.dog
    return (
        f"Degrees of hand wheel after the needle bar's lowest. The point leaves the plate at {turn.leaves:.0f} and comes back "
        f"at {turn.enters:.0f}. The teeth come up at {turn.emerges:.0f}, are highest at {turn.highest:.0f} and sink at "
        f"{turn.sinks:.0f}. The dog goes {dog.travel:.2f} mm from end to end, {dog.stitch:.2f} mm of it above the plate, and "
        f"lifts {dog.lift:g} mm. Broken lines: {shown.off:g} degrees early and late."
    )


def _path(dog: Dog) -> tuple[str, float]:
    """The dog's path beside the plate, and its height in px."""
    scale = scale_for(dog.travel, _PATH_ROOM)
    mm = scale * PX_PER_MM
    middle, plate = LEFT + _PATH_ROOM / 2, _PATH_TOP + dog.above * mm
    points = (f"{num(middle + dog.along(a) * mm)} {num(plate - dog.height(a) * mm)}" for a in range(0, 360, 10))
    path = draw.path("M" + "L".join(points) + "Z", "line top path")
    line = draw.path(f"M{num(LEFT - 24)} {num(plate)}H{num(LEFT + _PATH_ROOM + 16)}", "line plate")
    arrow = draw.path(f"M{num(middle + 6)} {num(_PATH_TOP)}l-9 -4v8Z", "head")
    words = (f"stitch {dog.stitch:.2f} mm", f"travel {dog.travel:.2f} mm", f"lift {dog.lift:g} mm", f"{scale_words(scale)} on paper")
    told = "".join(_small(line, 196, _PATH_TOP - 8 + 15 * n) for n, line in enumerate(words))
    title = draw.words(["Path of the dog"], 8, 4, "strong") + _small("plate", LEFT + _PATH_ROOM + 20, plate - 8)
    return title + line + path + arrow + told, max(dog.lift * mm, 56)


def _small(line: str, x: float, y: float, middle: bool = False) -> str:
    return draw.words([line], x, y, "soft", middle=middle, size=text.SMALL)


def _x(degrees: float) -> float:
    return LEFT + WIDE * degrees / 360


def _needle(shown: Shown, top: float) -> str:
    """The point's height over the turn, and the plate's."""
    stroke = shown.bar.stroke

    def y(height: float) -> float:
        return top + NEEDLE_TALL * (1 - (height + shown.depth) / stroke)

    heights = ((a, rise(shown.bar, a) - shown.depth) for a in range(0, 361, STEP))
    curve = draw.path("M" + "L".join(f"{num(_x(a))} {num(y(h))}" for a, h in heights), "line top needle-curve")
    title = draw.words(["Needle's point"], 8, top - 25, "strong")
    return title + _plate(y(0)) + curve + _marks(y, (stroke - shown.depth, -shown.depth))


def _dog(shown: Shown, top: float) -> str:
    """The teeth's height over the turn: right, early and late, and the band in which the right one feeds."""
    dog, turn = shown.dog, shown.turn

    def y(height: float) -> float:
        return top + DOG_TALL * (dog.above - height) / dog.lift

    def curve(late: float, look: str) -> str:
        places = (f"{num(_x(a))} {num(y(dog.height(a - turn.highest - late)))}" for a in range(0, 361, STEP))
        return draw.path("M" + "L".join(places), look)

    band = f'x="{num(_x(turn.emerges))}" y="{num(top)}" width="{num(_x(turn.sinks) - _x(turn.emerges))}" height="{num(y(0) - top)}"'
    curves = curve(-shown.off, "line dashed early") + curve(shown.off, "line dashed late") + curve(0, "line top dog-curve")
    title = draw.words([f"Dog's teeth; broken: {shown.off:g}° early and late"], 8, top - 25, "strong")
    return title + f'<rect class="gate feeds" {band}/>' + _plate(y(0)) + curves + _marks(y, (dog.above, dog.above - dog.lift))


def _plate(y: float) -> str:
    return draw.path(f"M{num(LEFT)} {num(y)}H{num(LEFT + WIDE)}", "line plate")


def _marks(y: Callable[[float], float], ends: tuple[float, float]) -> str:
    """Heights at the ends of a field and at the plate, mm."""
    return "".join(
        _small(f"{mm:.3g}", LEFT - 16, y(mm) - 8, middle=True) for mm in (*ends, 0)
    )


def _axis(foot: float) -> str:
    figures = "".join(_small(str(a), _x(a), foot + 2, middle=True) for a in range(0, 361, 60))
    return figures + _small("Hand wheel, degrees after lowest", LEFT + WIDE / 2, foot + 15, middle=True)
