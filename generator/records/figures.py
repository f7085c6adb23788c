"""A family's figures as numbers."""

from __future__ import annotations

from generator.records.model import Family
from generator.standards.quantity import Quantity

TIMES = ("hook-timing", "lower-looper-timing")
"Settings whose target is a rise of the needle bar, mm."


def written(family: Family, name: str) -> str | None:
    """A figure as it stands in the record; None where it is not recorded."""
    figure = family.figures.get(name)
    return str(figure.value) if figure else None


def length(family: Family, name: str) -> float | None:
    """A figure that is a length, mm; None where it is not recorded."""
    return in_unit(family, name, "mm")


def in_unit(family: Family, name: str, unit: str) -> float | None:
    """One value in a unit; None too where a range is written, or what is no quantity of that kind."""
    try:
        return Quantity.parse(written(family, name) or "").number(unit)
    except ValueError:
        return None


def number(family: Family, name: str) -> float | None:
    """A plain number; None too where a range is written, or no number."""
    try:
        return float(written(family, name) or "")
    except ValueError:
        return None
