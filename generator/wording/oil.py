"""Oil and grease in words."""

from __future__ import annotations

from generator.records.model import OilPoint
from generator.wording import words


def oil_words(point: OilPoint) -> str:
    """What goes there and how much of it, as a sentence.

    >>> oil_words(OilPoint("race", "clear machine oil", drops=1)), oil_words(OilPoint("gear", "gear grease"))
    ('1 drop of clear machine oil.', 'Gear grease.')
    """
    if point.drops:
        return f"{words.counted(point.drops, 'drop')} of {point.oil}."
    return f"{point.oil[:1].upper()}{point.oil[1:]}."
