"""Plain scalars as YAML 1.2 reads them (core schema, section 10.3.2): only true and false are booleans."""

from __future__ import annotations

import math
import re

from generator.records.node import Scalar

_WORDS: dict[str, Scalar] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}
_INTEGER = re.compile(r"[-+]?[0-9]+")
_OCTAL = re.compile(r"0o[0-7]+")
_HEXADECIMAL = re.compile(r"0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_ENDLESS = re.compile(r"[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)")
_BEGINS_A_NUMBER = frozenset("+-.0123456789")
_MOST_DIGITS = 300  # more than a float can hold; Python refuses to read 4,300


def resolve(text: str) -> Scalar:
    """The value of an unquoted scalar; ValueError for a number that has no finite value.

    >>> resolve("off"), resolve("true"), resolve("1:30"), resolve("2025-01-31"), resolve("0.50")
    ('off', True, '1:30', '2025-01-31', 0.5)
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _BEGINS_A_NUMBER:  # most are words
        return text
    if _ENDLESS.fullmatch(text):
        raise ValueError(f"{text} is no number that can be worked with.")
    if _OCTAL.fullmatch(text) or _HEXADECIMAL.fullmatch(text):
        return int(text, 0)
    return _number(text) if _FLOAT.fullmatch(text) else text


def _number(text: str) -> int | float:
    if len(text) > _MOST_DIGITS or not math.isfinite(float(text)):
        raise ValueError("The number is too large.")
    return int(text) if _INTEGER.fullmatch(text) else float(text)
