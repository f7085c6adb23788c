"""Quotes: sums worked by hand, and properties that hold for all of them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.analysis.job.money import Rates, quote
from generator.analysis.job.types import Handling, Plan, Practice, Step
from generator.analysis.machine import MachineWait

EMPTY = Plan((), (), 0.0, (), (), (), (), 0, 0, True)
GEARS = Practice(
    {
        "hook-gear": Handling(price=(Fraction(9), Fraction(18))),
        "bush": Handling(price=(Fraction("2.50"), Fraction("3.75"))),
        "odd": Handling(),
    }
)


def job(minutes: float, *parts: str) -> Plan:
    return replace(EMPTY, minutes=minutes, parts=parts)


def test_a_worked_quote() -> None:
    """By hand: 40 to 75 minutes at 45 an hour, 30 to 56.25; parts 11.50 to 21.75 and a fifth, 13.80 to 26.10."""
    got = quote(job(50, "hook-gear", "bush"), GEARS, Rates(45, "GBP", margin="0.2"))
    assert got.minutes == (40, 75)
    assert got.labour == (30, 57)
    assert got.parts == (13, 27)
    assert got.total == (43, 84)
    assert got.tax is None and got.unpriced == ()


def test_tax_is_left_out_unless_the_shop_gives_it() -> None:
    got = quote(job(50, "hook-gear", "bush"), GEARS, Rates(45, "GBP", margin="0.2", tax="0.2"))
    assert got.tax == (8, 17)
    assert got.total == (43 + 8, 84 + 17)


def test_a_whole_amount_is_not_widened() -> None:
    """By hand: an hour, no spread, at 45.00 and a gear at 9 to 18; thirds of an hour stay exact."""
    exact = Rates(45, "GBP", spread=(1, 1))
    assert quote(job(60, "hook-gear"), GEARS, exact).total == (54, 63)
    assert quote(job(20), GEARS, exact).labour == (15, 15)
    assert quote(job(0.1 + 0.2), GEARS, replace(exact, labour=200)).labour == (1, 1)


def test_waiting_is_shown_and_not_charged() -> None:
    """By hand: of 50 minutes 20 wait, so 30 at 60 an hour; a plan that only waits charges nothing."""
    soaked = Step("remedy", "soak", "work", 30, wait=MachineWait(20, "the oil creeps in"))
    got = quote(replace(EMPTY, steps=(soaked,), minutes=50), GEARS, Rates(60, "GBP", spread=(1, 1)))
    assert (got.labour, got.minutes) == ((30, 30), (50, 50))
    assert quote(replace(EMPTY, steps=(soaked,), minutes=20), GEARS, Rates(60, "GBP")).labour == (0, 0)
    assert quote(replace(EMPTY, steps=(soaked,), minutes=50), GEARS, Rates(60, "GBP", spread=(1, 1)), recorded=15).labour == (0, 0)


def test_minutes_count_to_four_decimals() -> None:
    """By hand: a third of 100 minutes counts as 33.3333; at 10 000 a minute that is 333 333 and no part of a unit more."""
    assert quote(job(100 / 3), GEARS, Rates(600_000, "GBP", spread=(1, 1))).labour == (333_333, 333_333)


def test_a_part_without_a_price_is_named_and_not_guessed() -> None:
    got = quote(job(10, "hook-gear", "odd"), GEARS, Rates(45, "GBP"))
    assert got.unpriced == ("odd",)
    assert got.parts == (9, 18)


def test_decimals_strings_and_fractions_mean_the_same() -> None:
    written = [("45.10", "0.1"), (Decimal("45.10"), Decimal("0.1")), (Fraction(451, 10), Fraction(1, 10))]
    quotes = {quote(job(33, "bush"), GEARS, Rates(rate, "GBP", margin=m)) for rate, m in written}
    assert len(quotes) == 1


@pytest.mark.parametrize(
    ("rates", "said"),
    [
        (Rates(-1, "GBP"), "labour: -1 is below nothing"),
        (Rates("a lot", "GBP"), "labour: 'a lot' is no number"),
        (Rates(45, "GBP", margin="-0.1"), "margin: -0.1 is below nothing"),
        (Rates(45, "GBP", tax="-0.1"), "tax: -0.1 is below nothing"),
        (Rates(45, "GBP", spread=(2, 1)), "spread: 2 to 1 is no range"),
    ],
)
def test_what_is_no_rate_is_refused(rates: Rates, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        quote(job(10), GEARS, rates)


def test_a_price_upside_down_is_refused() -> None:
    upside_down = Practice({"gear": Handling(price=(Fraction(18), Fraction(9)))})
    with pytest.raises(ValueError, match="price of gear: 18 to 9 is no range"):
        quote(job(10, "gear"), upside_down, Rates(45, "GBP"))


MONEY = st.fractions(0, 500, max_denominator=100)


@given(st.integers(0, 2000), MONEY, st.fractions(0, 2, max_denominator=20), MONEY, MONEY)
def test_the_range_holds_the_exact_sum_and_is_under_a_unit_wider_at_each_end_of_a_line(
    quarters: int, rate: Fraction, margin: Fraction, one: Fraction, other: Fraction
) -> None:
    prices = min(one, other), max(one, other)
    practice = Practice({"gear": Handling(price=prices)})
    got = quote(job(quarters / 4, "gear"), practice, Rates(rate, "GBP", margin, ("9/10", "5/4")))
    minutes = Fraction(quarters, 4)
    low = minutes * Fraction(9, 10) * rate / 60 + prices[0] * (1 + margin)
    high = minutes * Fraction(5, 4) * rate / 60 + prices[1] * (1 + margin)
    assert low - 2 < got.total[0] <= low <= high <= got.total[1] < high + 2
    assert got.total == tuple(a + b for a, b in zip(got.labour, got.parts))
