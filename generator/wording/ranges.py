"""Ranges of money and of measures in words."""

from __future__ import annotations

from generator.records.model import Target


def price_words(price: str, currency: str) -> str:
    """A band as it is read.

    >>> price_words("9..18", "€"), price_words("4", "€")
    ('€9 to €18', '€4')
    """
    low, _, high = price.partition("..")
    return f"{currency}{low} to {currency}{high}" if high else f"{currency}{low}"


def range_words(target: Target | None) -> str:
    """What a setting should measure.

    >>> range_words(Target("gap", "common-practice", low="0.05 mm", high="0.1 mm"))
    '0.05 mm to 0.1 mm'
    """
    return "" if target is None else target.span
