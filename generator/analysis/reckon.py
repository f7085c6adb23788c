"""Stitch length and belt teeth. The browser reckons them by the same formulas: assets/js/charts/sizes.js."""

from __future__ import annotations

INCH_MM = 25.4


def stitch_length(stitches_per_inch: float) -> float:
    """Stitch length in mm from stitches per inch; ValueError if there are none.

    >>> round(stitch_length(12), 3)
    2.117
    """
    return INCH_MM / _positive(stitches_per_inch, "Stitches per inch")


def stitches_per_inch(length_mm: float) -> float:
    """Stitches per inch from the stitch length in mm.

    >>> round(stitches_per_inch(2.54), 6)
    10.0
    """
    return INCH_MM / _positive(length_mm, "The stitch length")


def belt_tooth_degrees(teeth: int) -> float:
    """Degrees that a pulley turns when its toothed belt is moved on by one tooth, 360 / z.

    >>> belt_tooth_degrees(18)
    20.0
    """
    return 360 / _positive(teeth, "The number of teeth")


def _positive(value: float, name: str) -> float:
    if not 0 < value < float("inf"):
        raise ValueError(f"{name} must be more than zero, not {value:g}.")
    return value
