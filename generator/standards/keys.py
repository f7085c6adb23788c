"""Hex keys for socket set screws and socket head cap screws, by thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from generator.standards.quantity import Quantity, format_number
from generator.standards.threads import Thread, diameter_of

Kind = Literal["set", "cap"]
System = Literal["inch", "metric"]

KIND_WORDS: dict[Kind, str] = {"set": "set screw", "cap": "cap screw"}
"How each kind is called in a sentence."


@dataclass(frozen=True, slots=True)
class Key:
    """The hex key for one screw."""

    size: Quantity
    "Nominal width across flats, as it is stamped."
    source: str
    "Id of the table's source."
    memory: bool = False
    "True where the row is recalled, not read from a copy of its source."
    screw: str = ""
    "Size of the screw whose key this is, where no table lists the screw itself; then measure it."

    @property
    def mm(self) -> float:
        """Width across flats in mm."""
        return self.size.number("mm")

    @property
    def inferred(self) -> bool:
        """True where the size is taken from the nearest standard screw."""
        return bool(self.screw)


# Screw size -> key in inches. ASME B18.3.
_SET_INCH = {
    "0": ".028", "1": ".035", "2": ".035", "3": ".050", "4": ".050", "5": "1/16", "6": "1/16",
    "8": "5/64", "10": "3/32", "1/4": "1/8", "5/16": "5/32", "3/8": "3/16", "7/16": "7/32", "1/2": "1/4",
}  # fmt: skip
_CAP_INCH = {
    "0": ".050", "1": "1/16", "2": "5/64", "3": "5/64", "4": "3/32", "5": "3/32", "6": "7/64",
    "8": "9/64", "10": "5/32", "1/4": "3/16", "5/16": "1/4", "3/8": "5/16", "7/16": "3/8", "1/2": "3/8",
}  # fmt: skip
_RECALLED = {("cap", "1/2")}

# How far a screw may be from a listed one and borrow its key, as a share of its diameter: a little over
# half the step between neighbouring number sizes, which is 14 % at size 10. A rule of this book.
NEAREST = Fraction(1, 12)

# Diameter -> key in mm. Set screws ISO 4026 to 4029, cap screws ISO 4762.
_SET_METRIC = {
    "1.6": "0.7", "2": "0.9", "2.5": "1.3", "3": "1.5", "4": "2",
    "5": "2.5", "6": "3", "8": "4", "10": "5", "12": "6",
}  # fmt: skip
_CAP_METRIC = {
    "1.6": "1.5", "2": "1.5", "2.5": "2", "3": "2.5", "4": "3",
    "5": "4", "6": "5", "8": "6", "10": "8", "12": "10",
}  # fmt: skip

_INCH: dict[Kind, dict[str, str]] = {"set": _SET_INCH, "cap": _CAP_INCH}
_METRIC: dict[Kind, tuple[dict[str, str], str]] = {"set": (_SET_METRIC, "iso-4026"), "cap": (_CAP_METRIC, "iso-4762")}

INCH_KEYS: dict[Kind, dict[str, Key]] = {
    kind: {
        size: Key(Quantity.parse(f"{key} in"), "asme-b18.3", (kind, size) in _RECALLED)
        for size, key in table.items()
    }
    for kind, table in _INCH.items()
}
"Kind -> screw size (10, 1/4) -> key."

METRIC_KEYS: dict[Kind, dict[Fraction, Key]] = {
    kind: {Fraction(d): Key(Quantity.parse(f"{key} mm"), source) for d, key in table.items()}
    for kind, (table, source) in _METRIC.items()
}
"Kind -> diameter in mm -> key."


def _series(*tables: Mapping[Any, Key]) -> tuple[Quantity, ...]:
    sizes = {key.size for table in tables for key in table.values()}
    return tuple(sorted(sizes, key=lambda size: size.value))


KEY_SERIES: dict[System, tuple[Quantity, ...]] = {
    "inch": _series(*INCH_KEYS.values()),
    "metric": _series(*METRIC_KEYS.values()),
}
"The keys that standard screws call for, so those found in a set of keys, smallest first."


def key_for(thread: Thread, kind: Kind) -> Key | None:
    """The hex key for a socket screw, or None where no table gives one (`why_no_key` says why).

    The standards give a key to a diameter, whatever the pitch. A thread outside the standards takes the
    key of the listed screw nearest in diameter, and `screw` names that one: such a key is to be measured.

    >>> from generator.standards.notation import parse_thread
    >>> str(key_for(parse_thread("10-32"), "set").size), key_for(parse_thread("M4"), "cap").mm
    ('3/32 in', 3.0)
    >>> key_for(parse_thread("11/64-40"), "set").screw
    '8'
    """
    near = _nearest_listed(thread, kind)
    if near is None or thread.source in ("asme-b1.1", "iso-261"):
        return near and near[1]
    screw, key = near
    return Key(key.size, "common-practice", screw=screw)


def _nearest_listed(thread: Thread, kind: Kind) -> tuple[str, Key] | None:
    """The listed screw whose key this one takes: for metric the same diameter, for inch sizes the nearest."""
    if thread.is_metric:
        key = METRIC_KEYS[kind].get(thread.diameter_mm)
        return (f"M{format_number(thread.diameter_mm)}", key) if key else None
    misses = {size: abs(diameter_of(size) - thread.diameter_mm) for size in INCH_KEYS[kind]}
    near = min(misses, key=lambda size: (misses[size], diameter_of(size)))
    return (near, INCH_KEYS[kind][near]) if misses[near] <= NEAREST * thread.diameter_mm else None


def why_no_key(thread: Thread, kind: Kind) -> str:
    """The sentence for a screw without a key in the tables.

    >>> from generator.standards.notation import parse_thread
    >>> why_no_key(parse_thread("M4.5"), "set")
    'No table gives a key for M4.5, set screw: measure the socket across its flats.'
    """
    return f"No table gives a key for {thread.name}, {KIND_WORDS[kind]}: measure the socket across its flats."
