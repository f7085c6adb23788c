"""Faces made for a test, and a browser's machine that has them and no other."""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont
from fontTools.ttLib.scaleUpem import scale_upem

ROOT = Path(__file__).parent.parent
SHEET = ROOT / "generator" / "assets" / "css" / "face.css"
OURS = "Handwheel Docket"
_OWN_RULE = re.compile(r'@font-face \{\s*font-family: "Handwheel Docket";\s*font-weight: (\d+);\s*src: url\("data:font/woff2;base64,([^"]+)"\)[^}]*\}\n?')

_MACHINE = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig><dir>{folder}</dir><cachedir>{folder}/cache</cachedir></fontconfig>"""


@cache
def shipped() -> Mapping[int, bytes]:
    """The packed faces in the style sheet, by weight."""
    return {int(w): base64.b64decode(data) for w, data in _OWN_RULE.findall(SHEET.read_text(encoding="utf-8"))}


def face(weight: int) -> TTFont:
    """A shipped face, opened."""
    return TTFont(io.BytesIO(shipped()[weight]))


def without_ours(sheet: str) -> str:
    """The style sheet as for a browser that cannot load the face."""
    return _OWN_RULE.sub("", sheet)


def _named(made: TTFont, family: str, weight: int) -> TTFont:
    style = {400: "Regular", 700: "Bold"}[weight]
    full = family if weight == 400 else f"{family} {style}"
    for number, words in ((1, family), (2, style), (4, full), (6, full.replace(" ", ""))):
        made["name"].setName(words, number, 3, 1, 0x409)
    made.flavor = None
    return made


def stretched(folder: Path, family: str, by: float) -> None:
    """Our two faces, `by` times as wide, under another name."""
    for weight in shipped():
        made = _named(face(weight), family, weight)
        metrics = made["hmtx"].metrics
        for name in made.getGlyphOrder():
            width, left = metrics[name]
            if hasattr(made["glyf"][name], "coordinates"):
                made["glyf"][name].coordinates.scale((by, 1))
                made["glyf"][name].recalcBounds(made["glyf"])
            metrics[name] = (round(width * by), round(left * by))
        made.save(folder / f"{family}-{weight}.ttf")


def with_widths(folder: Path, family: str, weight: int, widths: Mapping[str, int]) -> None:
    """Our face with other advance widths, in thousandths of the type size, under another name."""
    made = _named(face(weight), family, weight)
    scale_upem(made, 1000)
    names, metrics = made.getBestCmap(), made["hmtx"].metrics
    for char, width in widths.items():
        if ord(char) in names:
            metrics[names[ord(char)]] = (width, metrics[names[ord(char)]][1])
    made.save(folder / f"{family}-{weight}.ttf")


def machine(folder: Path) -> dict[str, str]:
    """The environment of a browser whose machine has the faces in `folder` alone."""
    settings = folder / "fonts.conf"
    settings.write_text(_MACHINE.format(folder=folder), encoding="utf-8")
    return {"FONTCONFIG_FILE": str(settings)}
