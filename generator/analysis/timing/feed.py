"""The feed dog against the needle over one turn, and stitches measured on a scrap."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, degrees, radians, sin

from generator.analysis.timing import offset_crank
from generator.analysis.timing.needle_bar import Bar, coming_down


@dataclass(frozen=True, slots=True)
class Dog:
    """A feed dog on a round path: it goes along and up as two sines, a quarter turn apart, once for a stitch.

    Real feeds are near to it: their upper run is a little flatter.
    """

    stitch: float
    "mm that the cloth goes, which is what the dog goes while its teeth are above the plate."
    lift: float
    "mm from its lowest to its highest."
    above: float
    "Full height of the teeth above the plate at the highest, mm; not more than the lift."

    @property
    def half(self) -> float:
        """Degrees of hand wheel from the teeth coming level with the plate to their highest: cos a = 1 - 2 h / lift."""
        return degrees(acos(1 - 2 * self.above / self.lift))

    @property
    def travel(self) -> float:
        """mm from end to end of its path."""
        return self.stitch / sin(radians(min(self.half, 90.0)))

    def along(self, turned: float) -> float:
        """mm along the bed from the middle of its path, `turned` degrees after its highest; it feeds as this grows."""
        return self.travel / 2 * sin(radians(turned))

    def height(self, turned: float) -> float:
        """mm of the teeth above the plate, `turned` degrees after their highest; negative: below."""
        return self.above - self.lift / 2 * (1 - cos(radians(turned)))


@dataclass(frozen=True, slots=True)
class Turn:
    """One turn of the hand wheel, in degrees after the needle bar's lowest."""

    leaves: float
    "The needle's point leaves the plate."
    enters: float
    "It comes back to the plate."
    emerges: float
    "The dog's teeth come level with the plate."
    highest: float
    sinks: float
    "They sink level with it again."


def one_turn(bar: Bar, depth: float, dog: Dog, sinking: float) -> Turn:
    """When needle and dog pass the plate, where the teeth sink with the point `sinking` mm above the plate.

    `depth` is how far the point is under the plate at its lowest, mm. ValueError where the bar does not reach.
    """
    sinks = coming_down(bar, depth + sinking)
    return Turn(
        leaves=offset_crank.rising_angle(bar.crank, depth),
        enters=coming_down(bar, depth),
        emerges=sinks - 2 * dog.half,
        highest=sinks - dog.half,
        sinks=sinks,
    )


def dragged(dog: Dog, turn: Turn, late: float) -> float:
    """mm that the dog still feeds with the needle in the cloth, where it comes `late` degrees late; negative: early.

    After the point has gone in, or, of a dog too early, before it has come out.
    """
    emerges, sinks, highest = (angle + late for angle in (turn.emerges, turn.sinks, turn.highest))
    going_in = dog.along(sinks - highest) - dog.along(turn.enters - highest) if emerges < turn.enters < sinks else 0.0
    coming_out = dog.along(turn.leaves - highest) - dog.along(emerges - highest) if emerges < turn.leaves < sinks else 0.0
    return going_in + coming_out


def play_as_feed(play: float, radius: float, dog: Dog) -> float:
    """mm of feed that play of `play` mm at a gear of `radius` mm is worth, where the dog goes fastest: its middle.

    The dog goes pi travel for a turn of its shaft there; turned by play / radius, that is travel / 2 times the angle.
    """
    return dog.travel / 2 * play / radius


@dataclass(frozen=True, slots=True)
class Match:
    """Reverse against forward."""

    apart: float
    "mm to a stitch; positive: reverse is the longer."
    share: float
    "Of the forward stitch."


def reverse_match(forward: float, reverse: float) -> Match:
    """From the lengths of ten stitches each way, mm.

    >>> reverse_match(30, 28.5)
    Match(apart=-0.15, share=-0.05)
    """
    return Match(round((reverse - forward) / 10, 9), (reverse - forward) / forward)
