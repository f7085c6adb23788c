"""How wide faces run: the figures for pictures, and for the faces that stand in where ours is not to be had."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from fontTools.ttLib import TTFont

from tests.tools.faces import StandIn


def advances(face: TTFont) -> dict[str, int]:
    """Each character's advance in thousandths of the type size, rounded up."""
    unit, widths = face["head"].unitsPerEm, face["hmtx"]
    return {chr(code): -(-widths[glyph][0] * 1000 // unit) for code, glyph in sorted(face.getBestCmap().items())}


def letters(folder: Path) -> Counter[str]:
    """How often each character stands in the records' words."""
    return Counter("".join(" ".join(p.read_text(encoding="utf-8").split()) for p in sorted(folder.rglob("*.yaml"))))


def _run(widths: Mapping[str, int], often: Counter[str]) -> int:
    return sum(widths[char] * times for char, times in often.items() if char in widths and char.isascii())


def scale(ours: TTFont, theirs: TTFont, often: Counter[str]) -> float:
    """By how much the other face is scaled to run as wide as ours over the words of the records."""
    return _run(advances(ours), often) / _run(advances(theirs), often)


def stand_in_rule(stand_in: StandIn, weight: int, by: float, ours: TTFont) -> str:
    """A rule that scales a local face to our widths and gives it our heights.

    A height in percent is taken of the size that is already scaled (CSS Fonts 5, section 7), hence the division.
    """
    unit, heights = ours["head"].unitsPerEm, ours["hhea"]
    up, down = heights.ascent / unit / by, -heights.descent / unit / by
    names = ", ".join(f'local("{name}")' for name in (stand_in.regular if weight == 400 else stand_in.bold))
    return (
        f'@font-face {{\n  font-family: "{stand_in.name}";\n  font-weight: {weight};\n  src: {names};\n'
        f"  size-adjust: {by:.1%};\n  ascent-override: {up:.1%};\n  descent-override: {down:.1%};\n  line-gap-override: 0%;\n}}\n"
    )
