"""Units written otherwise than the book writes them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from generator.records.fixing.edits import Edit
from generator.records.kinds import KINDS
from generator.records.node import Node
from generator.records.schema import follow
from generator.records.schema_keys import keys_of
from generator.standards.quantity import ALIASES, NUMBER, UNITS

_SPELT = {
    "mm": "millimetre millimetres millimeter millimeters",
    "cm": "centimetre centimetres centimeter centimeters",
    "in": "inch inches ins in.",
    "g": "gram grams gramme grammes",
    "kg": "kilogram kilograms kilogramme kilogrammes kgs",
    "min": "minute minutes mins",
    "deg": "degree degrees",
    "N": "newton newtons",
    "spi": "stitches per inch|stitches/inch",
}
"Unit -> ways to write it out; those with a space in them stand alone."
_WORDS = {word: unit for unit, words in _SPELT.items() for word in (words.split("|") if "|" in words else words.split())}
_IN_CAPITALS = ("mm", "cm", "kg", "in", "spi", "spcm", "rpm", "spm", "deg")
"Units that capitals make into no other: MA and mA are two."
_WRITTEN = re.compile(rf"(-?(?:{NUMBER}))\s*(\D\S*(?: \S+)*)")


def respelt(text: str) -> str | None:
    """A quantity with its unit as the book writes it; None where it is so already, or where the unit is not sure.

    >>> respelt("2 MM"), respelt("3/32 inches"), respelt('1/4"'), respelt("0,7 mm"), respelt("3 mA"), respelt("2 mn")
    ('2 mm', '3/32 in', '1/4 in', None, None, None)
    """
    match = _WRITTEN.fullmatch(text)
    if match is None:
        return None
    number, written = match.groups()
    unit = _unit(written)
    return f"{number} {unit}" if unit and unit != written else None


def _unit(written: str) -> str | None:
    if written in UNITS:
        return written
    low = written.lower()
    return ALIASES.get(written) or _WORDS.get(low) or (low if low in _IN_CAPITALS else None)


def unit_edits(top: Node) -> Iterator[Edit]:
    """An edit for every quantity of a file whose unit is written otherwise."""
    for key, node in _under_keys(top, ""):
        new = respelt(node.value) if isinstance(node.value, str) and key in _quantity_keys() else None
        if new:
            yield Edit(node.at.line, node.at.column, str(node.value), new)


def _under_keys(node: Node, key: str) -> Iterator[tuple[str, Node]]:
    """Every scalar with the key that says what it is: its own, or `figures` for a figure."""
    if not isinstance(node.value, (dict, list)):
        yield key, node
    for name, below in node.children():
        own = "figures" if key == "figures" and name not in ("source", "note") else str(name)
        yield from _under_keys(below, own)


@cache
def _quantity_keys() -> frozenset[str]:
    """Keys that take a number with its unit, by the schema; a family's figures do too."""
    every = ((kind.schema, key) for kind in KINDS.values() for key in keys_of(kind.schema))
    return frozenset({"figures"} | {key.name for name, key in every if follow(name, key.shape).get("format")})
