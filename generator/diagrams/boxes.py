"""Boxes joined by arrows: the common drawing of parts and settings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from generator.diagrams import draw, text
from generator.diagrams.layout import Drawing, Graph, Layout, Point

_TEXT = 112.0
_RANK_GAP, _NODE_GAP = 28.0, 12.0
_SAMPLE = 34.0
_LEGEND_GAP = 12.0


@dataclass(frozen=True, slots=True)
class Box:
    """One box."""

    title: str
    address: str | None = None
    note: str = ""
    "A figure under the title, such as minutes."
    look: str = ""


@dataclass(frozen=True, slots=True)
class Arrow:
    """One arrow between boxes, by their positions."""

    tail: int
    head: int
    look: str = ""
    bound: bool = True
    "Whether it decides which box stands further on."


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that a picture of boxes shows."""

    prefix: str
    title: str
    about: str
    boxes: Sequence[Box]
    arrows: Sequence[Arrow]
    legend: Sequence[tuple[str, str]]
    "An arrow's look and what it means."


def prepare(sheet: Sheet) -> Drawing:
    """Boxes and arrows ready to be laid out: standing or lying, whichever is the narrower."""
    lines = [text.wrap(box.title, _TEXT) for box in sheet.boxes]
    sizes = tuple(_size(wrapped, box.note) for wrapped, box in zip(lines, sheet.boxes, strict=True))
    edges = tuple((arrow.tail, arrow.head) for arrow in sheet.arrows)
    loose = frozenset(number for number, arrow in enumerate(sheet.arrows) if not arrow.bound)
    graph = Graph(sizes, edges, rank_gap=_RANK_GAP, node_gap=_NODE_GAP, loose=loose)

    def render(layout: Layout) -> str:
        arrows = "".join(
            draw.arrow(draw.moved(curve), arrow.look)
            for curve, arrow in zip(layout.curves, sheet.arrows, strict=True)
        )
        placed = zip(sheet.boxes, lines, draw.corners(layout, graph), sizes, strict=True)
        size, legend = _with_legend(sheet.legend, layout)
        body = arrows + "".join(_drawn(*each) for each in placed) + legend
        return draw.svg(sheet.prefix, sheet.title, sheet.about, size, body)

    standing = Drawing(graph, render)
    return replace(standing, other=Drawing(replace(graph, lying=True), render))


def _size(lines: tuple[str, ...], note: str) -> Point:
    wide = ceil(max(text.widest(lines), text.width(note)))
    return wide + 2 * draw.PAD, (len(lines) + bool(note)) * text.LINE + draw.PAD


def _drawn(box: Box, lines: tuple[str, ...], corner: Point, size: Point) -> str:
    x, y = corner
    top = y + draw.PAD / 2
    body = (
        draw.box(x, y, *size, box.look)
        + draw.hit(x, y, *size)
        + draw.words(lines, x + draw.PAD, top)
        + draw.words([box.note] if box.note else [], x + draw.PAD, top + len(lines) * text.LINE, "note")
    )
    return draw.link(box.address, ", ".join(filter(None, (box.title, box.note))), body)


def _with_legend(legend: Sequence[tuple[str, str]], layout: Layout) -> tuple[Point, str]:
    """The size of the picture with its legend under it, and the legend."""
    y = draw.MARGIN + layout.height + _LEGEND_GAP
    left = draw.MARGIN + _SAMPLE + draw.PAD
    drawn, wide = "", 0.0
    for look, meaning in legend:
        middle = y + text.LINE / 2
        ends = [(draw.MARGIN + part * _SAMPLE / 3, middle) for part in range(4)]
        drawn += draw.arrow(ends, look) + draw.words([meaning], left, y, "soft", size=text.SMALL)
        y += text.LINE
        wide = max(wide, left + text.width(meaning, text.SMALL) - draw.MARGIN)
    return (max(layout.width, wide), y - draw.MARGIN), drawn
