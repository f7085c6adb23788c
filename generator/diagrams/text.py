"""How wide text is, without a browser: by the widths of the site's own face, and line breaking by it."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterator, Mapping
from functools import lru_cache
from math import fsum
from pathlib import Path

SIZE = 13.0
"Type size of titles in a picture, px."
SMALL = 11.0
"Type size of figures and notes in a picture, px; nothing is smaller."
LINE = 16.0
"From one baseline to the next, px."

# Advance widths in thousandths of the type size, of the site's own face; tests/tools/type_face.py writes them with the face.
_WIDTHS = json.loads((Path(__file__).parent / "advances.json").read_text(encoding="utf-8"))
_REGULAR, _BOLD = ({char: width / 1000 for char, width in _WIDTHS[weight].items()} for weight in ("regular", "bold"))
_OTHER, _WIDE, _ACCENT = 1.1, 1.4, 0.1
_SLACK = 1.04
"Faces that stand in for ours run as wide on the whole, not in each word."
_UNPRINTED = {"Cc", "Cf", "Cs", "Co", "Cn"}
_JOINERS = "\u200c\u200d"
_KEPT = 1 << 16
"Titles come back in hundreds of pictures; this many measures are remembered."


@lru_cache(maxsize=_KEPT)
def clean(text: str) -> str:
    """The text on one line, without what XML cannot hold or what would turn the writing direction.

    >>> clean("Hook\\u202e gap\\x00\\n wide")
    'Hook gap wide'
    """
    kept = (
        " " if char.isspace() else char
        for char in text
        if char.isspace() or char in _JOINERS or unicodedata.category(char) not in _UNPRINTED
    )
    return " ".join("".join(kept).split())


def _advance(char: str, widths: Mapping[str, float]) -> float:
    if char in widths:
        return widths[char]
    if unicodedata.combining(char) or char in _JOINERS:
        return 0.0
    base = unicodedata.normalize("NFD", char)[0]
    if base in widths:
        return widths[base] + _ACCENT
    return _WIDE if unicodedata.east_asian_width(char) in "WF" else _OTHER


@lru_cache(maxsize=_KEPT)
def width(text: str, size: float = SIZE, strong: bool = False) -> float:
    """Width in px that the text does not exceed in the site's own face at `size` px.

    >>> width("Needle bent") < width("Needle bent", strong=True)
    True
    """
    widths = _BOLD if strong else _REGULAR
    return fsum(_advance(char, widths) for char in text) * size * _SLACK


def _first_piece(word: str, limit: float, size: float, strong: bool) -> tuple[str, str]:
    """The longest start of a word that fits, broken after its own hyphen where it has one."""
    end = 1
    while end < len(word) and width(word[: end + 1] + "-", size, strong) <= limit:
        end += 1
    hyphen = max(word.rfind("-", 0, end), word.rfind("/", 0, end)) + 1
    if hyphen:
        return word[:hyphen], word[hyphen:]
    return word[:end] + "-", word[end:]


def _pieces(word: str, limit: float, size: float, strong: bool) -> Iterator[str]:
    while len(word) > 1 and width(word, size, strong) > limit:
        piece, word = _first_piece(word, limit, size, strong)
        yield piece
    if word:
        yield word


@lru_cache(maxsize=_KEPT)
def wrap(text: str, limit: float, size: float = SIZE, strong: bool = False) -> tuple[str, ...]:
    """The text in lines of at most `limit` px; a word too long for a line is broken with a hyphen.

    >>> wrap("The hook does not meet the loop", 90)
    ('The hook does', 'not meet the', 'loop')
    """
    lines: list[str] = []
    for word in clean(text).split():
        for piece in _pieces(word, limit, size, strong):
            longer = f"{lines[-1]} {piece}" if lines else piece
            if lines and width(longer, size, strong) <= limit:
                lines[-1] = longer
            else:
                lines.append(piece)
    return tuple(lines)


def widest(lines: tuple[str, ...], size: float = SIZE, strong: bool = False) -> float:
    """Width in px of the longest line, 0 without lines."""
    return max((width(line, size, strong) for line in lines), default=0.0)
