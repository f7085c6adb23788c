"""Cuts a face down to what the site prints and gives it our name."""

from __future__ import annotations

import base64
import io
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

NAME = "Handwheel Docket"
"Ours: the licence reserves the name of the family that it is cut from."

_RANGES = (
    (0x20, 0x7E), (0xA0, 0x17F), (0x2010, 0x2015), (0x2018, 0x201E), (0x2020, 0x2022), (0x2026, 0x2026), (0x2030, 0x2030),
    (0x2032, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044), (0x20AC, 0x20AC), (0x2122, 0x2122), (0x215B, 0x215E),
    (0x2190, 0x2193), (0x2212, 0x2212), (0x2248, 0x2248), (0x2260, 0x2260), (0x2264, 0x2265), (0x3A9, 0x3A9), (0x3BC, 0x3BC),
)  # fmt: skip
"""Latin of western and central Europe, the signs of measures, fractions and arrows."""

_KEPT_NAMES = (0, 13, 14)
"Who made it and the licence."


def cut(path: Path, weight: str) -> TTFont:
    """The face with our characters alone, its figures all of one width, under our name."""
    face = TTFont(path)
    _even_figures(face)
    options = subset.Options(layout_features=["kern", "mark", "ccmp"], hinting=False, name_IDs=list(_KEPT_NAMES), notdef_outline=True)
    tool = subset.Subsetter(options)
    tool.populate(unicodes=[code for first, last in _RANGES for code in range(first, last + 1)])
    tool.subset(face)
    full = f"{NAME} {weight}"
    for number, words in ((1, NAME), (2, weight), (3, full), (4, full), (6, f"{NAME.replace(' ', '')}-{weight}")):
        face["name"].setName(words, number, 3, 1, 0x409)
    return face


def _even_figures(face: TTFont) -> None:
    """Minutes stand under one another everywhere: the tabular figures become the only ones."""
    for table in face["cmap"].tables:
        for code in range(ord("0"), ord("9") + 1):
            even = f"{table.cmap.get(code)}.tf"
            if even in face.getReverseGlyphMap():
                table.cmap[code] = even


def woff2(face: TTFont) -> bytes:
    """The face packed for the web."""
    face.flavor, out = "woff2", io.BytesIO()
    face.save(out)
    return out.getvalue()


def data_address(packed: bytes) -> str:
    """The packed face inside an address, so that a style sheet opened from disk needs no other file."""
    return "data:font/woff2;base64," + base64.b64encode(packed).decode()
