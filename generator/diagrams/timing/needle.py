"""A needle drawn to scale: what the views of timing share."""

from __future__ import annotations

from generator.diagrams import draw
from generator.diagrams.draw import num

PX_PER_MM = 96 / 25.4
"A px of CSS on paper is 1/96 in."
TIMES = 5
"The needle on paper to the needle: 5 : 1, a scale of technical drawing (ISO 5455; from memory)."
SCALE = TIMES * PX_PER_MM
"px for a mm."
EYE = 1.2
"mm; the eye's length is a sketch."
BELOW = 2.6
"mm from the top of the eye to the needle's end; a sketch."


def needle(metric: int, middle: float, eye: float, top: float) -> str:
    """A needle from `top` down with the top of its eye at `eye`, px; `metric` is its number."""
    half, foot = metric / 200 * SCALE, eye + BELOW * SCALE
    left, right, taper = num(middle - half), num(middle + half), num(foot - 12)
    blade = f"M{left} {num(top)}H{right}V{taper}L{num(middle)} {num(foot)}L{left} {taper}Z"
    hole = f'x="{num(middle - half * 0.4)}" y="{num(eye)}" width="{num(half * 0.8)}" height="{num(EYE * SCALE)}"'
    return draw.path(blade, "box needle") + f'<rect class="transfer eye" {hole} rx="3"/>'


def point(tip: float, y: float, long: float) -> str:
    """A hook point that comes from the right, its tip at `tip`."""
    return draw.path(f"M{num(tip)} {num(y)}l{num(long)} -6v14Z", "gate point")


def scale_bar(x: float, y: float, long: float, says: str) -> str:
    """A scale bar `long` px."""
    return draw.path(f"M{num(x)} {num(y - 4)}v8m0 -4h{num(long)}m0 -4v8", "line bar") + draw.words([says], x + long + 8, y - 8)
