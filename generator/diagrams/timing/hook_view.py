"""Needle and point at three instants, and the pieces that a slider moves; to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.diagrams import draw, text
from generator.diagrams.draw import num
from generator.diagrams.timing.needle import BELOW, SCALE, TIMES, needle, point, scale_bar

_WIDE = 324.0
_TOP = 46.0
_SHOWN = 1.2
"mm of needle above the point at its highest."


@dataclass(frozen=True, slots=True)
class Instant:
    """Needle and point at one angle of the hand wheel."""

    degrees: float
    rise: float
    "mm."
    past: float
    "mm that the point is past the needle; negative: before it."
    above: float
    "mm of the point above the top of the eye."


def svg(metric: int, instants: Sequence[Instant], prefix: str) -> str:
    """The instants side by side; the point stands at one height and the needle rises past it."""
    step = _WIDE / len(instants)
    level = _TOP + _SHOWN * SCALE
    foot = level + max(i.above for i in instants) * SCALE + BELOW * SCALE
    body = draw.path(f"M8 {num(level)}H{num(8 + _WIDE)}", "line dashed level")
    for number, instant in enumerate(instants):
        middle = 8 + step * (number + 0.5)
        body += needle(metric, middle, level + instant.above * SCALE, _TOP)
        body += point(middle - instant.past * SCALE, level, 15)
        body += draw.words([f"{instant.degrees:.0f}°"], middle, 6, "strong", middle=True)
        body += draw.words([f"risen {instant.rise:.2f}"], middle, 22, "soft", middle=True, size=text.SMALL)
    bar = scale_bar(16, foot + 14, SCALE, f"1 mm; {TIMES} : 1 on paper")
    return draw.svg(prefix, "Needle and point as they pass", described(instants), (_WIDE, foot + 10), body + bar)


def described(instants: Sequence[Instant]) -> str:
    """The drawing in words."""
    return " ".join(
        f"{i.degrees:.1f} degrees after lowest: bar risen {i.rise:.2f} mm, point {_where(i.past)}, "
        f"{abs(i.above):.2f} mm {'above' if i.above >= 0 else 'below'} the top of the eye."
        for i in instants
    )


def _where(past: float) -> str:
    if abs(past) < 0.005:
        return "at the needle"
    return f"{abs(past):.2f} mm {'past' if past > 0 else 'before'} the needle"


def moving(metric: int, rise: float, above: float, prefix: str) -> str:
    """The view that a slider moves: groups `needle` and `point`, drawn where the point passes at `rise` mm.

    The needle moves up by a mm of rise and the point to the left by a mm of path, each `SCALE` px.
    """
    level, middle, top = _TOP + 40.0, 110.0, 8.0
    lowest = level + (above + rise) * SCALE + BELOW * SCALE
    body = (
        draw.path(f"M8 {num(level)}H{num(8 + _WIDE)}", "line dashed level")
        + f'<g data-moves="needle">{needle(metric, middle, level + above * SCALE, top - 200)}</g>'
        + f'<g data-moves="point">{point(middle, level, 60)}</g>'
    )
    said = "The needle and the hook's point, moved by the slider under the picture. The same in words stands beside it."
    return draw.svg(prefix, "Needle and point as the hand wheel turns", said, (_WIDE, lowest - 6), body)
