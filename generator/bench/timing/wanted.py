"""Figures that timing is worked out from, and those of them that a family lacks."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.timing import read
from generator.bench.timing.feed import moves_with_the_needle
from generator.family_view import FamilyView
from generator.records.figures import TIMES

USED = (
    "needle_bar_stroke",
    "connecting_rod",
    "crank_offset",
    "needle_depth",
    "point_below_eye",
    "looper_above_eye",
    "hook_turns_per_stitch",
    "hook_swing",
    "hook_start",
    "hook_radius",
    "hook_gear_teeth",
    "hook_drive_teeth",
    "hook_gear_outside",
    "hook_gear_helix",
    "upper_pulley_teeth",
    "lower_pulley_teeth",
    "belt_pitch",
    "belt_teeth",
    "widest_zigzag",
    "first_swing",
    "longest_stitch",
    "feed_lift",
    "feed_gear_radius",
    "differential_range",
    "motor_pulley",
    "wheel_pulley",
    "top_speed",
)


def missing(view: FamilyView) -> tuple[str, ...]:
    """Figures that would say more of this family."""
    return tuple(_missing(view))


def _missing(view: FamilyView) -> Iterator[str]:
    figures = view.family.figures
    yield from (name for name in ("needle_bar_stroke", "connecting_rod") if name not in figures)
    yield from (name for name in _of_hook(view) if name not in figures)
    yield from (name for name in _of_feed(view) if name not in figures)
    if view.family.features.get("toothed_belt"):
        yield from (name for name in ("upper_pulley_teeth", "lower_pulley_teeth") if name not in figures)
    if view.family.features.get("motor"):
        yield from (name for name in ("motor_pulley", "wheel_pulley") if name not in figures)


def _of_hook(view: FamilyView) -> Iterator[str]:
    figures = view.family.figures
    if TIMES[1] in view.settings:
        yield read.LOOPER
    if TIMES[0] not in view.settings:
        return
    if "hook_swing" in figures:
        yield "hook_start"
    elif "hook_turns_per_stitch" not in figures:
        yield "hook_swing" if view.family.features.get("vibrating_shuttle") else "hook_turns_per_stitch"
    yield "hook_radius"
    if view.family.features.get("zigzag") and "hook_radius" in figures:
        yield "first_swing"


def _of_feed(view: FamilyView) -> Iterator[str]:
    if moves_with_the_needle(view) or not read.target(view, read.SINKING):
        return
    yield from ("feed_lift", "needle_depth")
    gauge = view.settings[read.SINKING[0]].gauge
    if gauge and gauge.draws == "eye-height":
        yield "point_below_eye"
