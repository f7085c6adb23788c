"""The small sheet that every gauge's drawing is on, and its scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.diagrams import draw, text

PX_PER_MM = 96 / 25.4
"A px of CSS on paper is 1/96 in (CSS Values and Units, Level 4)."
SCALES = (100, 50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10)
"Scales of technical drawing, larger to smaller (ISO 5455; from memory)."
LEFT, TOP = 6.0, 6.0
WIDE = 140.0
"px within the edges: 37 mm on paper."
ROW = 14.0
"From one line of small type to the next, px."


@dataclass(frozen=True, slots=True)
class Measure:
    """What a setting's drawing has to show."""

    of: str
    "What is measured, in a word or two."
    to: str
    "From what; may be empty."
    low: float
    "In `unit`."
    high: float
    unit: str
    tool: str = ""
    "What it is gauged with, in words; empty: by eye."


def scale_for(most: float, room: float) -> float:
    """The largest scale at which `most` mm take no more than `room` px; the smallest where none does.

    >>> scale_for(0.1, 30), scale_for(7, 46), scale_for(85, 64)
    (50, 1, 0.1)
    """
    return next((scale for scale in SCALES if most * scale * PX_PER_MM <= room), SCALES[-1])


def scale_words(scale: float) -> str:
    """The scale as drawings have it.

    >>> scale_words(20), scale_words(1 / 5)
    ('20 : 1', '1 : 5')
    """
    return f"{scale:g} : 1" if scale >= 1 else f"1 : {1 / scale:g}"


def figure(value: float, unit: str) -> str:
    """A measure in words: a hundredth at the finest.

    >>> figure(0.05, "mm"), figure(3.0, "mm")
    ('0.05 mm', '3 mm')
    """
    return f"{round(value, 2):g} {unit}"


def wrapped(line: str, room: float) -> tuple[str, ...]:
    """Small type in lines of at most `room` px."""
    return text.wrap(line, room, text.SMALL)


def small(lines: Sequence[str], x: float, y: float, look: str = "", middle: bool = False) -> str:
    """Lines of small type under one another, closer than in the large pictures; `y` is the top of the first."""
    return "".join(
        draw.words([line], x, y + number * ROW - 1, look, middle=middle, size=text.SMALL) for number, line in enumerate(lines)
    )


def svg(prefix: str, title: str, says: str, body: str, tall: float, foot: Sequence[str]) -> str:
    """The sheet as one inline SVG, `tall` px of drawing with lines of small type under it."""
    lines = [line for part in foot if part for line in wrapped(part, WIDE)]
    whole = TOP + tall + 4 + ROW * len(lines)
    size = (LEFT + WIDE + 6 - 2 * draw.MARGIN, whole + 2 - 2 * draw.MARGIN)
    return draw.svg(prefix, title, says, size, body + small(lines, LEFT, TOP + tall + 4, "soft"))


def said(measure: Measure, scale: float | None) -> str:
    """The drawing in words."""
    least, most = figure(measure.low, measure.unit), figure(measure.high, measure.unit)
    subject = f"{measure.of} to {measure.to}" if measure.to else measure.of
    drawn = f" Drawn {scale_words(scale)}." if scale else ""
    tool = f" Gauged with: {measure.tool}." if measure.tool else ""
    return f"{subject[:1].upper()}{subject[1:]}: least {least}, most {most}.{drawn}{tool}"


def scale_line(scale: float, tool: str) -> str:
    """Scale and gauge, for the foot of the sheet."""
    return f"{scale_words(scale)} on paper{f'; {tool}' if tool else ''}"
