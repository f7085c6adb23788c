"""Needle and hook point as the point passes, at each position of the needle, and the gap enlarged; to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.diagrams import draw, text
from generator.diagrams.draw import num
from generator.diagrams.timing.needle import BELOW, SCALE, TIMES, needle, point, scale_bar

GAP_SCALE = 10 * SCALE
"px for a mm in the view of the gap: ten times as much."
TOP = 44.0
_ABOVE = 3.6  # mm of needle shown above the top of the eye
_EYE = TOP + _ABOVE * SCALE
_WIDE = 324.0
_GAP_TALL = 62.0


@dataclass(frozen=True, slots=True)
class Position:
    """The needle where it stands as the point passes."""

    title: str
    "Left, middle or right."
    rise: float
    "mm."
    above: float | None
    "Point above the top of the eye, mm; negative: below it. None where no figure says."


@dataclass(frozen=True, slots=True)
class Meeting:
    """What is drawn."""

    needle: int
    "Metric number."
    positions: Sequence[Position]
    height: tuple[float, float] | None
    "Point above the eye by its target, mm; twice the same where one figure says."
    gap: tuple[float, float] | None
    "Point to needle by its target, mm."


def svg(meeting: Meeting, prefix: str) -> str:
    """The drawing as one inline SVG. The eye's length and the shapes of needle and point are sketches; all else is to scale."""
    step = _WIDE / len(meeting.positions)
    views = "".join(
        _view(meeting, place, 8 + step * (number + 0.5)) for number, place in enumerate(meeting.positions)
    )
    foot = _EYE + BELOW * SCALE + 14
    scale = scale_bar(16, foot, SCALE, f"1 mm; needle Nm {meeting.needle}; {TIMES} : 1 on paper")
    gap = _gap(meeting.gap, foot + 26) if meeting.gap else ""
    tall = foot + (26 + _GAP_TALL + 26 if meeting.gap else 10)
    return draw.svg(prefix, "Needle and point as the point passes", described(meeting), (_WIDE, tall), views + scale + gap)


def described(meeting: Meeting) -> str:
    """The drawing in words."""
    said = [f"{p.title}: bar risen {p.rise:.2f} mm{_above_words(p.above)}" for p in meeting.positions]
    if meeting.height:
        said.append(f"Target above the eye {' to '.join(f'{mm:g}' for mm in dict.fromkeys(meeting.height))} mm")
    if meeting.gap:
        said.append(f"Gap {meeting.gap[0]:g} to {meeting.gap[1]:g} mm, drawn ten times larger again")
    return f"{'. '.join(said)}. Needle Nm {meeting.needle}."


def _above_words(above: float | None) -> str:
    if above is None:
        return ""
    return f", point {abs(above):.2f} mm {'above' if above >= 0 else 'below'} the top of the eye"


def _view(meeting: Meeting, place: Position, middle: float) -> str:
    """One needle with its eye, the target's band and the point."""
    titles = draw.words([place.title], middle, 6, "strong", middle=True)
    risen = draw.words([f"risen {place.rise:.2f}"], middle, 22, "soft", middle=True, size=text.SMALL)
    blade = needle(meeting.needle, middle, _EYE, TOP)
    return titles + risen + blade + _band(meeting, middle) + _point(place, middle)


def _band(meeting: Meeting, middle: float) -> str:
    """The target's height above the eye, as two broken lines."""
    if meeting.height is None:
        return ""
    lines = "".join(f"M{num(middle - 46)} {num(_EYE - mm * SCALE)}h44" for mm in meeting.height)
    return draw.path(lines, "line dashed target")


def _point(place: Position, middle: float) -> str:
    """The hook point, its tip on the needle's middle, and how far it stands above the eye."""
    if place.above is None:
        return ""
    y = _EYE - place.above * SCALE
    return point(middle, y, 44) + draw.words([f"{place.above:.2f}"], middle + 30, y + 10, "small", middle=True, size=text.SMALL)


def _gap(gap: tuple[float, float], top: float) -> str:
    """The side of the needle and the point at both ends of the gap's target."""
    wall = 60.0
    near, far = (wall + mm * GAP_SCALE for mm in gap)
    needle = f'<rect class="box side" x="{num(wall - 44)}" y="{num(top + 20)}" width="44" height="{num(_GAP_TALL)}"/>'
    scarf = draw.words(["scarf"], wall - 22, top + 44, "soft", middle=True, size=text.SMALL)
    body = f"M{num(near)} {num(top + 36)}L{num(near + 60)} {num(top + 28)}V{num(top + 46)}Z"
    other = f"M{num(far)} {num(top + 66)}L{num(far + 60)} {num(top + 58)}V{num(top + 76)}Z"
    labels = draw.words([f"{gap[0]:g} mm"], near + 68, top + 28) + draw.words([f"{gap[1]:g} mm"], far + 68, top + 58)
    head = draw.words(["Gap, least and most"], 16, top, "strong")
    scale = scale_bar(16, top + _GAP_TALL + 32, GAP_SCALE / 10, f"0.1 mm; {TIMES * 10} : 1 on paper")
    return head + needle + scarf + draw.path(body, "gate near") + draw.path(other, "gate far") + labels + scale
