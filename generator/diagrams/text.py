"""How wide text is, without a browser: a table that errs on the wide side, and line breaking by it."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache

SIZE = 13.0
"Type size of titles in a picture, px."
SMALL = 11.0
"Type size of figures and notes in a picture, px; nothing is smaller."
LINE = 16.0
"From one baseline to the next, px."

# Advance widths in hundredths of the type size. Each is the wider of DejaVu Sans and Liberation Sans
# as measured; the usual system faces of phones and desktops are narrower than the first of these.
_ADVANCES = {
    28: "'ijl", 30: "I", 33: " ,.·‘’", 35: "/:;\\f|", 37: "-", 40: "()[]t!", 42: "r", 47: '"',
    51: "*J`°–", 53: "sz“”", 56: "c?L_", 60: "kvxy", 62: "FTaoe", 64: "bdghnpqu$0123456789{}",
    68: "EKPSYV", 71: "ABXZ", 73: "CRU", 76: "HN", 79: "DGOQ&", 84: "w#+<=>^~×≥≤", 87: "M",
    96: "%", 98: "m", 100: "W—…", 101: "@",
}
_WIDTH = {char: width / 100 for width, chars in _ADVANCES.items() for char in chars}
_OTHER, _WIDE, _ACCENT, _SLACK = 1.1, 1.4, 0.1, 1.02
_NARROW, _STRONG_NARROW, _STRONG = 0.45, 1.26, 1.15
_UNPRINTED = {"Cc", "Cf", "Cs", "Co", "Cn"}
_JOINERS = "\u200c\u200d"
_KEPT = 1 << 16
"Titles come back in hundreds of pictures; this many measures are remembered."


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


def _advance(char: str) -> float:
    if char in _WIDTH:
        return _WIDTH[char]
    if unicodedata.combining(char) or char in _JOINERS:
        return 0.0
    base = unicodedata.normalize("NFD", char)[0]
    if base in _WIDTH:
        return _WIDTH[base] + _ACCENT
    return _WIDE if unicodedata.east_asian_width(char) in "WF" else _OTHER


def _strong_advance(char: str) -> float:
    """Bold type widens narrow letters most."""
    plain = _advance(char)
    return plain * (_STRONG_NARROW if plain < _NARROW else _STRONG)


@lru_cache(maxsize=_KEPT)
def width(text: str, size: float = SIZE, strong: bool = False) -> float:
    """Width in px that the text does not exceed in common sans faces at `size` px.

    >>> width("Needle bent") < width("Needle bent", strong=True)
    True
    """
    return sum(map(_strong_advance if strong else _advance, text)) * size * _SLACK


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

    >>> wrap("The hook does not meet the loop", 110)
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
