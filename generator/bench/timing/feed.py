"""The feed of a family: its stitches, and its dog against the needle."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.reckon import stitch_length, stitches_per_inch
from generator.analysis.timing.feed import Dog, Match, Turn, dragged, one_turn, play_as_feed, reverse_match
from generator.analysis.timing.needle_bar import Bar
from generator.bench.timing import read
from generator.bench.timing.read import Range
from generator.family_view import FamilyView
from generator.records.figures import length, written
from generator.standards.quantity import Quantity

OFF = 20.0
"Degrees of hand wheel by which the feed is drawn early and late."


@dataclass(frozen=True, slots=True)
class Path:
    """The dog against the needle over one turn."""

    dog: Dog
    depth: float
    "The needle's point under the plate at its lowest, mm."
    sinking: float
    "The point above the plate as the teeth sink level with it, mm: the middle of the target."
    turn: Turn
    right: float
    "mm that the dog feeds with the needle in the cloth where it comes as it should."
    early: float
    "mm that the dog still feeds with the needle in the cloth, `OFF` degrees early."
    late: float
    "The same `OFF` degrees late."
    room_early: float
    "Degrees of hand wheel by which it may come early before it feeds with the needle in the cloth."
    room_late: float


@dataclass(frozen=True, slots=True)
class Feed:
    """The longest stitch, both ways, the differential, and the dog's path."""

    longest_mm: float | None
    longest_spi: float | None
    ten_mm: float | None
    "Ten of the longest stitches."
    differential: Range | None
    path: Path | None
    with_needle: bool
    "Whether the needle goes along with the dog, so that no path against it is drawn."
    play_mm: float | None
    "mm of feed that the most play of the feed gears is worth."
    match: Match | None
    "The most that reverse may differ from forward, by its target."


def feed(view: FamilyView, bar: Bar | None) -> Feed:
    """What the figures say of the feed."""
    longest, dog = longest_stitch(view), _dog(view)
    low, _, high = (written(view.family, "differential_range") or "").partition(" to ")
    play, radius = read.ends(read.target(view, read.FEED_PLAY)), length(view.family, "feed_gear_radius")
    return Feed(
        longest_mm=longest,
        longest_spi=stitches_per_inch(longest) if longest else None,
        ten_mm=10 * longest if longest else None,
        differential=(float(low), float(high)) if low and high else None,
        path=_path(view, bar, dog),
        with_needle=moves_with_the_needle(view),
        play_mm=play_as_feed(play[1], radius, dog) if play and radius and dog else None,
        match=_match(view),
    )


def longest_stitch(view: FamilyView) -> float | None:
    """mm; None where a range is written."""
    figure = written(view.family, "longest_stitch")
    if figure is None or " to " in figure:
        return None
    said = Quantity.parse(figure)
    return said.number("mm") if said.dimension == "length" else stitch_length(said.number("spi"))


def moves_with_the_needle(view: FamilyView) -> bool:
    """Whether the needle goes along with the cloth, so that it may be in it while the dog feeds."""
    return "needle-feed-match" in view.settings


def _dog(view: FamilyView) -> Dog | None:
    stitch, lift, teeth = longest_stitch(view), length(view.family, "feed_lift"), read.ends(read.target(view, read.TEETH))
    if not (stitch and lift and teeth) or sum(teeth) / 2 > lift:
        return None
    return Dog(stitch, lift, sum(teeth) / 2)


def _path(view: FamilyView, bar: Bar | None, dog: Dog | None) -> Path | None:
    depth, sinking = length(view.family, "needle_depth"), _sinking(view)
    if not (bar and dog and depth) or sinking is None or moves_with_the_needle(view):
        return None
    try:
        turn = one_turn(bar, depth, dog, sinking)
    except ValueError:
        return None
    return Path(
        dog=dog,
        depth=depth,
        sinking=sinking,
        turn=turn,
        right=dragged(dog, turn, 0.0),
        early=dragged(dog, turn, -OFF),
        late=dragged(dog, turn, OFF),
        room_early=turn.emerges - turn.leaves,
        room_late=turn.enters - turn.sinks,
    )


def _match(view: FamilyView) -> Match | None:
    setting = view.settings.get(read.REVERSE)
    spread = read.ends(setting.target) if setting else None
    if not (setting and spread and setting.gauge and setting.gauge.over):
        return None
    forward = Quantity.parse(setting.gauge.over).number("mm")
    return reverse_match(forward, forward + spread[1])


def _sinking(view: FamilyView) -> float | None:
    """The needle's point above the plate as the teeth sink, by the target; where it is said of the eye, the point is lower."""
    found = read.ends(read.target(view, read.SINKING))
    if found is None:
        return None
    of_eye = view.settings[read.SINKING[0]].gauge
    lower = length(view.family, "point_below_eye") if of_eye and of_eye.draws == "eye-height" else 0.0
    return None if lower is None else sum(found) / 2 - lower
