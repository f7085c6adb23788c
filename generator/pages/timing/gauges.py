"""The small drawing of a setting: where the gauge goes, least and most."""

from __future__ import annotations

from markupsafe import Markup

from generator.bench.timing import Timing
from generator.diagrams.gauges import gaps, heights, needles, pulleys, pulls, runs
from generator.diagrams.gauges.needles import Blade
from generator.diagrams.gauges.pulleys import Drive
from generator.diagrams.gauges.sheet import Measure
from generator.family_view import FamilyView
from generator.pages.maker import Maker
from generator.records.figures import number, written
from generator.records.model import Gauge, Setting, Target
from generator.standards.belts import BELT_PITCH_MM
from generator.standards.quantity import Quantity
from generator.wording.ranges import range_words

_SHAPES = {
    **dict.fromkeys(("gap", "point-gap", "tooth-gap"), gaps.svg),
    **dict.fromkeys(("height", "foot-height", "point-height", "eye-height", "teeth-height", "depth"), heights.svg),
}
_NEEDLES = {"rise": needles.rise, "meeting": needles.meeting}
_PULLS = {"pull": pulls.svg, "give": pulls.give}


def drawing(maker: Maker, view: FamilyView, setting: Setting, found: Timing, prefix: str) -> Markup:
    """The drawing of a setting; empty where its record or the family's figures do not say enough."""
    gauge = setting.gauge
    if gauge is None:
        return Markup()
    if gauge.draws == "belt-teeth":
        return _belt(view, found, prefix)
    measure = _measure(maker, gauge, setting.target)
    return Markup(_drawn(gauge, measure, found, prefix)) if measure else Markup()


def _drawn(gauge: Gauge, measure: Measure, found: Timing, prefix: str) -> str:
    if gauge.draws in _SHAPES:
        return _SHAPES[gauge.draws](measure, prefix, gauge.draws)
    if gauge.draws in _NEEDLES:
        above = sum(found.height) / 2 if found.height else None
        return _NEEDLES[gauge.draws](measure, Blade(found.needle, above), prefix) if found.needle else ""
    if gauge.draws == "run":
        return runs.svg(measure, Quantity.parse(gauge.over).number("mm"), prefix) if gauge.over else ""
    return _PULLS[gauge.draws](measure, prefix)


def _measure(maker: Maker, gauge: Gauge, target: Target | None) -> Measure | None:
    """Lengths in mm; forces in the target's own unit."""
    if target is None or not (target.low and target.high):
        return None
    low, high = Quantity.parse(target.low), Quantity.parse(target.high)
    unit = "mm" if low.dimension == "length" else low.unit
    tool = maker.records.tools.get(gauge.tool or "")
    return Measure(gauge.of, gauge.to or "", low.number(unit), high.number(unit), unit, tool.title.lower() if tool else "")


def _belt(view: FamilyView, found: Timing, prefix: str) -> Markup:
    upper, lower = number(view.family, "upper_pulley_teeth"), number(view.family, "lower_pulley_teeth")
    pitch = BELT_PITCH_MM.get(written(view.family, "belt_pitch") or "")
    if not (upper and lower and pitch and found.tooth):
        return Markup()
    return Markup(pulleys.svg(Drive(int(upper), int(lower), pitch, found.tooth.degrees, found.tooth.late), prefix))


def gauged(maker: Maker, view: FamilyView, found: Timing) -> list[dict[str, object]]:
    """Every setting that has a drawing, with its mechanism, in the family's order."""
    rows = ((s, drawing(maker, view, s, found, f"gauge-{s.id}")) for s in view.settings.values())
    return [
        {"setting": s, "range": range_words(s.target), "home": view.home_of[s.id], "drawing": picture, "tool": s.gauge.tool}
        for s, picture in rows
        if picture and s.gauge
    ]
