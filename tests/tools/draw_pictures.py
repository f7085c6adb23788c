"""Draws the drawings of `content/pictures`: run it to write them.

    python -m tests.tools.draw_pictures
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from pathlib import Path

from PIL import Image, ImageDraw

FOLDER = Path(__file__).parents[2] / "content" / "pictures"
SIZE = (960, 300)
FINER = 4
"Drawn so many times larger, then made smaller: lines without steps."
INK, GREY, LIGHT, PAPER = 30, 130, 205, 255
MIDDLE, HALF, END = 150, 46, 620
"Of the thread: height of its middle, half its thickness, where it parted."

Points = list[tuple[float, float]]


class Sheet:
    """A drawing in pixels of its finished size."""

    def __init__(self) -> None:
        self._image = Image.new("L", (SIZE[0] * FINER, SIZE[1] * FINER), PAPER)
        self._draw = ImageDraw.Draw(self._image)

    def line(self, points: Points, width: float, ink: int = INK) -> None:
        """A line with round corners and ends."""
        fine = [(x * FINER, y * FINER) for x, y in points]
        self._draw.line(fine, ink, round(width * FINER), joint="curve")
        for x, y in (fine[0], fine[-1]):
            r = width * FINER / 2
            self._draw.ellipse((x - r, y - r, x + r, y + r), ink)

    def area(self, points: Points, ink: int) -> None:
        """A filled shape."""
        self._draw.polygon([(x * FINER, y * FINER) for x, y in points], ink)

    def save(self, name: str) -> None:
        """In sixteen greys."""
        small = self._image.resize(SIZE, Image.Resampling.LANCZOS).point(lambda grey: grey // 16 * 17)
        small.save(FOLDER / name, "PNG", optimize=True)


def thread(sheet: Sheet, end: Callable[[float], float]) -> None:
    """A twisted thread from the left; `end` gives where it stops at each height, from -1 to 1 of its thickness."""
    heights = [n / 20 for n in range(-20, 21)]
    edge = [(end(h), MIDDLE + h * HALF) for h in heights]
    sheet.area([(0, MIDDLE - HALF), *edge, (0, MIDDLE + HALF)], LIGHT)
    for start in range(-120, 760, 44):
        turn = [(start + (h + 1) * 38, MIDDLE + h * HALF) for h in heights]
        kept = [p for p, h in zip(turn, heights, strict=True) if 0 <= p[0] <= end(h) - 2]
        if len(kept) > 1:
            sheet.line(kept, 4, GREY)
    for h in (-1, 1):
        sheet.line([(0, MIDDLE + h * HALF), (end(h), MIDDLE + h * HALF)], 5)
    sheet.line(edge, 5)


def hairs(sheet: Sheet, seed: int, count: int, start: tuple[float, float], long: tuple[float, float], spread: float) -> None:
    """Loose fibres that begin between two places along the thread and stand out to the right."""
    rng = random.Random(seed)
    for _ in range(count):
        x, h = rng.uniform(*start), rng.uniform(-0.9, 0.9)
        length, lift = rng.uniform(*long), (h + rng.uniform(-0.4, 0.4)) * spread
        curve = [(x + t * length, MIDDLE + h * HALF + lift * t * t) for t in (n / 12 for n in range(13))]
        sheet.line(curve, 3)


def melted() -> Sheet:
    sheet = Sheet()
    thread(sheet, lambda h: END)
    around = [2 * math.pi * n / 60 for n in range(60)]
    bead = [(END + 34 + 62 * math.cos(a), MIDDLE + 62 * math.sin(a)) for a in around]
    sheet.area(bead, INK)
    sheet.area([(END + 14 + 13 * math.cos(a), MIDDLE - 22 + 9 * math.sin(a)) for a in around], LIGHT)
    return sheet


def fluffed() -> Sheet:
    sheet = Sheet()
    thread(sheet, lambda h: 430 + 40 * math.cos(3 * h))
    hairs(sheet, 5, 46, (300, 460), (110, 330), 120)
    return sheet


def cut() -> Sheet:
    sheet = Sheet()
    thread(sheet, lambda h: END - 190 if h < 0 else END + 40 * h)
    hairs(sheet, 2, 4, (END - 10, END + 10), (10, 34), 20)
    return sheet


def snapped() -> Sheet:
    sheet = Sheet()
    thread(sheet, lambda h: END + 7 * math.sin(9 * h))
    hairs(sheet, 3, 12, (END - 12, END), (14, 40), 26)
    return sheet


LAYERS = (84, 204)
"Top and bottom of two layers of fabric."


def seam(lock: float) -> Sheet:
    """A seam cut along its length: the needle thread dark, from above; the bobbin thread grey; where they lock, as a height."""
    sheet = Sheet()
    top, bottom = LAYERS
    sheet.area([(0, top), (SIZE[0], top), (SIZE[0], bottom), (0, bottom)], 232)
    sheet.line([(0, (top + bottom) / 2), (SIZE[0], (top + bottom) / 2)], 3, LIGHT)
    for start in range(-80, SIZE[0], 200):
        sheet.line(_over(start, bottom + 12, lock - 7), 13, GREY)
    for start in range(-80, SIZE[0], 200):
        sheet.line(_over(start, top - 12, lock + 7), 13, INK)
    return sheet


def _over(start: float, along: float, lock: float) -> Points:
    """One stitch: from a lock out to a face, along it, and back into the next hole."""
    deep = lock - along
    return [(start + x, along + deep * _sunk(min(x, 200 - x))) for x in range(0, 201, 2)]


def _sunk(away: float) -> float:
    """How far a thread is drawn in, from 0 to 1, so far from its hole."""
    return 0.5 + 0.5 * math.cos(math.pi * away / 34) if away < 34 else 0.0


def loose(sheet: Sheet) -> Sheet:
    """Needle thread that was drawn down and lies in loops below."""
    bottom = LAYERS[1]
    for start in range(-80, SIZE[0], 200):
        around = [2 * math.pi * n / 40 for n in range(41)]
        sheet.line([(start + 26 * math.sin(a), bottom + 44 - 34 * math.cos(a)) for a in around], 11)
    return sheet


DRAWINGS: dict[str, Callable[[], Sheet]] = {
    "thread-end-melted.png": melted,
    "thread-end-fluffed.png": fluffed,
    "thread-end-cut.png": cut,
    "thread-end-snapped.png": snapped,
    "seam-loops-below.png": lambda: loose(seam(LAYERS[1] + 6)),
    "seam-lock-on-top.png": lambda: seam(LAYERS[0] - 6),
}


def main() -> None:
    FOLDER.mkdir(exist_ok=True)
    for name, draw in DRAWINGS.items():
        draw().save(name)


if __name__ == "__main__":
    main()
