"""What lies behind what on the way in of one job."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from markupsafe import Markup

from generator.analysis.job.types import UPRIGHT, Step
from generator.diagrams import way_in_svg
from generator.diagrams.way_in_svg import TakenOff
from generator.family_view import FamilyView
from generator.graph import beyond
from generator.pages.maker import Maker

LEAST = 3
"Parts that come off, below which the steps say as much."


def drawing(maker: Maker, view: FamilyView, steps: Sequence[Step]) -> Markup:
    """The parts that come off before the work, in order; empty where they are few."""
    lies = {UPRIGHT: "Upright"} | {p.id: p.title for p in maker.records.positions.values()}
    off = {step.part: number for number, step in enumerate(steps, 1) if step.do == "take off" and step.phase == "way-in"}
    if len(off) < LEAST:
        return Markup()
    parts = [
        TakenOff(number, view.title("part", part), lies[steps[number - 1].position], nearest(view, part, off))
        for part, number in off.items()
    ]
    return Markup(way_in_svg.svg(parts, "way-in"))


def nearest(view: FamilyView, part: str, off: Mapping[str, int]) -> tuple[int, ...]:
    """Steps of the parts that it is behind, without those that another of them is behind in turn."""
    fronts = {p for p in view.parts[part].behind if p in off}
    further = {p for front in fronts for p in beyond(front, lambda q: view.parts[q].behind)}
    return tuple(sorted(off[p] for p in fronts - further))
