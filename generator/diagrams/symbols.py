"""Fault-tree symbols of IEC 61025: the distinctive shapes, apex towards the top event.

The shapes are drawn from memory of the standard and of common engineering use: a shield with a hollow
base for OR, with a flat base for AND, the OR shield with m/n for a vote, a circle for a basic event and
a triangle for a transfer. The words in the shields are for readers who do not know the shapes.
"""

from __future__ import annotations

from math import ceil

from generator.analysis.tree import Gate
from generator.diagrams import draw, text
from generator.diagrams.layout import Point

SHIELD = 32.0
"Least width and height of a gate, px."
_WORD = {"any": "or", "all": "and"}


def label(gate: Gate) -> str:
    """What stands in the gate: "or", "and", or m/n for m out of n inputs.

    >>> from generator.analysis.tree import Event
    >>> label(Gate("g", "", "at_least", (Event("a"), Event("b"), Event("c")), k=2))
    '2/3'
    """
    return _WORD.get(gate.kind) or f"{gate.k}/{len(gate.inputs)}"


def shield_size(labels: list[str]) -> float:
    """Width and height of gates so that each label fits, px."""
    return max([SHIELD, *(ceil(text.width(word, text.SMALL)) + 10 for word in labels)])


def _or(half: float) -> str:
    n = draw.num
    side = f"{n(half)} {n(-half * 0.1)} {n(half * 0.5)} {n(-half * 0.7)}"
    back = f"{n(-half * 0.5)} {n(-half * 0.7)} {n(-half)} {n(-half * 0.1)}"
    base = f"M{n(-half)} {n(half)}Q0 {n(half * 0.45)} {n(half)} {n(half)}"
    return f"{base}C{side} 0 {n(-half)}C{back} {n(-half)} {n(half)}Z"


def _and(half: float) -> str:
    n = draw.num
    return f"M{n(-half)} {n(half)}V0A{n(half)} {n(half)} 0 0 1 {n(half)} 0V{n(half)}Z"


_SHAPE = {"any": _or, "all": _and, "at_least": _or}


def gate(node: Gate, centre: Point, size: float, lying: bool, look: str = "") -> str:
    """A gate's shield with its label, apex up, or to the left in a tree that lies."""
    x, y = centre
    turned = f'transform="translate({draw.num(x)} {draw.num(y)}){" rotate(-90)" if lying else ""}"'
    shape = f'<path class="{f"gate {node.kind} {look}".strip()}" {turned} d="{_SHAPE[node.kind](size / 2)}"/>'
    at_x, at_y = (x + 1.5, y) if lying else (x, y + 1.5)
    return shape + draw.words([label(node)], at_x, at_y - text.LINE / 2, middle=True, size=text.SMALL)


def share(centre: Point, said: str) -> str:
    """What stands in a basic event's circle."""
    x, y = centre
    return draw.words([said] if said else [], x, y - text.LINE / 2, middle=True, size=text.SMALL)


def transfer(centre: Point, radius: float, lying: bool, look: str = "") -> str:
    """A transfer-in: a triangle, apex towards the gate that it feeds."""
    x, y = centre
    corners: tuple[Point, ...] = ((0, -radius), (radius, radius * 0.8), (-radius, radius * 0.8))
    if lying:
        corners = tuple((b, a) for a, b in corners)
    joined = "L".join(f"{draw.num(x + a)} {draw.num(y + b)}" for a, b in corners)
    return draw.path(f"M{joined}Z", f"transfer {look}".strip())
