"""What lies behind what on one way in: the parts in the order in which they come off, under the lie of the head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.diagrams import draw, text
from generator.diagrams.draw import num

LEFT = 8.0
_BOX, _ROW = 22.0, 28.0
_WIDEST = 236.0
_LANE = 11.0
"From one line beside the boxes to the next, px."
_NUMBER = 24.0


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A part that comes off."""

    number: int
    "Of its step."
    title: str
    lie: str
    "How the head lies then, in words."
    behind: tuple[int, ...]
    "Numbers of the steps that open the way to it; none that another of them stands behind."


def svg(parts: Sequence[TakenOff], prefix: str) -> str:
    """The picture as one inline SVG. Lines lead from a part to those that were behind it; each box leads to its step."""
    wide = min(_WIDEST, max(text.width(part.title) for part in parts) + _NUMBER + 2 * draw.PAD)
    tops, headings = _places(parts)
    lanes = _lanes(parts)
    body = "".join(draw.words([lie], LEFT, top, "strong") for lie, top in headings)
    body += "".join(_box(part, tops[part.number], wide) for part in parts)
    body += "".join(_line(tops[a], tops[b], LEFT + wide, lane) for (a, b), lane in lanes.items())
    most = max(lanes.values(), default=-1) + 1
    foot = max(tops.values()) + _BOX
    return draw.svg(prefix, "What lies behind what", described(parts), (wide + _LANE * most + 16, foot), body)


def described(parts: Sequence[TakenOff]) -> str:
    """The picture in words."""
    titles = {part.number: part.title for part in parts}
    return " ".join(
        f"{part.number} {part.title}, {part.lie.lower()}"
        + (f", behind {', '.join(titles[n] for n in part.behind)}." if part.behind else ".")
        for part in parts
    )


def _places(parts: Sequence[TakenOff]) -> tuple[dict[int, float], list[tuple[str, float]]]:
    """Top of each box, and each lie with the top of its words."""
    tops: dict[int, float] = {}
    headings: list[tuple[str, float]] = []
    y = 6.0
    for part in parts:
        if not headings or headings[-1][0] != part.lie:
            headings.append((part.lie, y))
            y += 22
        tops[part.number] = y
        y += _ROW
    return tops, headings


def _lanes(parts: Sequence[TakenOff]) -> dict[tuple[int, int], int]:
    """Each line, from the part in front to the part behind, in the first lane that is free along it."""
    order = {part.number: place for place, part in enumerate(parts)}
    lines = sorted(
        ((front, part.number) for part in parts for front in part.behind), key=lambda line: order[line[1]] - order[line[0]]
    )
    lanes: dict[tuple[int, int], int] = {}
    for front, back in lines:
        taken = {lane for (a, b), lane in lanes.items() if order[a] < order[back] and order[front] < order[b]}
        lanes[front, back] = next(n for n in range(len(lines)) if n not in taken)
    return lanes


def _box(part: TakenOff, top: float, wide: float) -> str:
    room = wide - _NUMBER - draw.PAD
    title = next(iter(text.wrap(part.title, room)))
    shown = title if title == part.title else f"{next(iter(text.wrap(part.title, room - text.width('…'))))}…"
    cell = draw.box(LEFT, top, wide, _BOX) + draw.hit(LEFT, top, wide, _BOX)
    number = draw.words([str(part.number)], LEFT + draw.PAD, top + 3, "note strong")
    words = draw.words([shown], LEFT + _NUMBER + 4, top + 3)
    return draw.link(f"#step-{part.number}", f"Step {part.number}: {part.title}", cell + number + words)


def _line(front: float, back: float, edge: float, lane: int) -> str:
    """From the lower half of the part in front to the upper half of the part behind it."""
    x, start, end = edge + _LANE * (lane + 1), front + _BOX * 0.7, back + _BOX * 0.3
    way = draw.path(f"M{num(edge)} {num(start)}H{num(x)}V{num(end)}H{num(edge + 7)}", "line behind")
    return way + draw.path(f"M{num(edge)} {num(end)}l7 -4v8Z", "head")
