"""The two pulleys of a toothed belt with every tooth, at their marks."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from generator.analysis.timing.belts import pitch_diameter
from generator.diagrams import draw
from generator.diagrams.draw import num
from generator.diagrams.gauges import sheet
from generator.diagrams.gauges.sheet import LEFT, PX_PER_MM, ROW, TOP, WIDE

_ROOM = 66.0


@dataclass(frozen=True, slots=True)
class Drive:
    """A toothed belt's drive."""

    upper: int
    "Teeth."
    lower: int
    pitch: float
    "mm along the belt."
    degrees: float
    "Of the hand wheel for a tooth."
    rise: float | None
    "mm of the needle bar for a tooth late, at hook timing; None where it is not known."


def svg(drive: Drive, prefix: str) -> str:
    """Both pulleys side by side, marks up against their pointers; a tooth to the side of each mark is shaded."""
    sizes = [pitch_diameter(teeth, drive.pitch) for teeth in (drive.upper, drive.lower)]
    scale = sheet.scale_for(max(sizes), _ROOM)
    centre = TOP + ROW + 12 + max(sizes) / 2 * scale * PX_PER_MM
    body = ""
    for n, (name, teeth, mm) in enumerate(zip(("upper", "lower"), (drive.upper, drive.lower), sizes, strict=True)):
        middle, radius = LEFT + WIDE * (0.25 + 0.5 * n), mm / 2 * scale * PX_PER_MM
        body += _pulley(middle, centre, radius, teeth) + sheet.small([f"{name} {teeth}"], middle, TOP, middle=True)
        body += draw.path(f"M{num(middle)} {num(centre - radius - 1)}l-4 -8h8Z", "head pointer")
    rise = f", {drive.rise:.1f} mm of rise late" if drive.rise is not None else ""
    told = f"a tooth: {drive.degrees:.1f}° of hand wheel{rise}"
    foot = (told, f"teeth to each; {scale_line(scale)}")
    tall = centre + max(sizes) / 2 * scale * PX_PER_MM - TOP
    says = f"Pulleys of {drive.upper} and {drive.lower} teeth at their marks; {told}. Drawn {sheet.scale_words(scale)}."
    return sheet.svg(prefix, "Marks of the toothed belt", says, body, tall, foot)


def scale_line(scale: float) -> str:
    """The scale, for the foot."""
    return f"{sheet.scale_words(scale)} on paper"


def _pulley(middle: float, centre: float, radius: float, teeth: int) -> str:
    """The pitch circle with a stroke for each tooth, and the sector of one tooth at the mark."""

    def at(turned: float, share: float) -> str:
        angle = radians(turned)
        return f"{num(middle + radius * share * sin(angle))} {num(centre - radius * share * cos(angle))}"

    step = 360 / teeth
    strokes = "".join(f"M{at(step * n, 0.86)}L{at(step * n, 1)}" for n in range(teeth))
    sector = f"M{num(middle)} {num(centre)}L{at(0, 1)}A{num(radius)} {num(radius)} 0 0 1 {at(step, 1)}Z"
    rim = draw.circle((middle, centre), radius, "rim")
    return rim + draw.path(sector, "gate tooth") + draw.path(strokes, "line teeth")
