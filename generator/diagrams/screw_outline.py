"""Outlines of a set screw in its tapped hole over a shaft, in px from measures in mm."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, sqrt

from generator.standards.threads import Thread

Points = list[tuple[float, float]]

_SHAFT_PX = 112
_SCREW_PX = 100
"The largest that shaft and screw may be drawn, px."


@dataclass(frozen=True, slots=True)
class Scene:
    """The section in px, y downwards from the top of the views."""

    radius: float
    depth: float
    half_flat: float
    half_screw: float
    pitch: float
    lift: float
    wall: float
    "Thickness of hub over the shaft."

    @property
    def root(self) -> float:
        """Half the thickness at the bottom of the thread, 0.61 of a pitch down."""
        return max(0.55 * self.half_screw, self.half_screw - 0.61 * self.pitch)

    @property
    def crown(self) -> float:
        """Height of the shaft's round, had it no flat."""
        return self.lift + self.wall

    @property
    def flat(self) -> float:
        """Height of the flat."""
        return self.crown + self.depth

    @property
    def centre(self) -> float:
        """Height of the shaft's centre."""
        return self.crown + self.radius

    @property
    def hole_end(self) -> float:
        """Where the tapped hole's side comes out in the bore."""
        return self.centre - sqrt(max(0.0, self.radius**2 - self.half_screw**2))

    @property
    def bottom(self) -> float:
        """Where the view breaks off, under the measure of the flat."""
        return min(self.centre + 0.9 * self.radius, max(self.flat + 46, self.centre + 0.2 * self.radius))


def scene_of(shaft_mm: float, flat_mm: float, depth_mm: float, thread: Thread, turns: float) -> Scene:
    """The scene at the largest scale that fits: the flat `depth_mm` deep, the screw raised by `turns`."""
    diameter, pitch = float(thread.diameter_mm), float(thread.pitch_mm)
    scale = min(_SHAFT_PX / shaft_mm, _SCREW_PX / diameter)
    return Scene(
        radius=shaft_mm / 2 * scale,
        depth=depth_mm * scale,
        half_flat=flat_mm / 2 * scale,
        half_screw=diameter / 2 * scale,
        pitch=pitch * scale,
        lift=turns * pitch * scale,
        wall=max(0.3 * shaft_mm, 0.6 * diameter) * scale,
    )


def _flank(scene: Scene, top: float, end: float, shift: int) -> Points:
    """Half width and height of one thread flank, downwards.

    Crests keep to the hub's helix whatever the ends, so that screw and hole mesh at any lift.
    """
    root, step = scene.root, scene.pitch / 2
    crests = range(ceil((top - scene.crown) / step), floor((end - scene.crown) / step) + 1)
    inside = [(scene.half_screw if (n + shift) % 2 else root, scene.crown + n * step) for n in crests]
    return [(root, top), *inside, (root, end)]


def threaded(scene: Scene, middle: float, top: float, end: float, tip: Points | None = None) -> Points:
    """Outline of a threaded length: right flank down, the tip from right to left, left flank up."""
    right = [(middle + half, y) for half, y in _flank(scene, top, end, 0)]
    left = [(middle - half, y) for half, y in _flank(scene, top, end, 1)]
    return right + (tip or []) + left[::-1]


def screw(scene: Scene, middle: float, head: float, point: float) -> Points:
    """The screw with its cone and cup; the rim of the cup is half as wide as the screw (ISO 4029)."""
    rim = scene.half_screw / 2
    cone = scene.root - rim
    cup = [(middle + rim, point), (middle, point - 0.6 * rim), (middle - rim, point)]
    return threaded(scene, middle, head, max(head, point - cone), cup)
