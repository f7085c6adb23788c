"""What a job on one family ends in."""

from __future__ import annotations

from generator.analysis import minutes
from generator.records.as_used import unmet
from generator.records.model import ClosingTest, Family, Shop


def closing_tests(family: Family, shop: Shop) -> tuple[ClosingTest, ...]:
    """The shop's closing tests, as far as this family can sew them."""
    return tuple(test for test in shop.closing_tests if not unmet(family.features, test.needs, test.lacks))


def closing_minutes(family: Family, shop: Shop) -> float:
    """Minutes of them all, or of one proving sew where there are none."""
    return minutes.closing((test.minutes for test in closing_tests(family, shop)), shop.proving_sew)
