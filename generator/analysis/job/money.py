"""What a plan comes to in money: a range, since a quote is given before all is seen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor
from typing import Any

from generator.analysis.job.types import Plan, Practice

Amount = int | str | Decimal | Fraction
"A number as people write it. No binary floats: 0.1 has none."
Range = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Rates:
    """What a shop charges."""

    labour: Amount
    "For an hour, in `currency`."
    currency: str
    margin: Amount = 0
    "Added to what parts cost: 1/4 adds a quarter."
    spread: tuple[Amount, Amount] = ("4/5", "3/2")
    "Shortest and longest time as shares of the planned minutes. The default is an estimate: "
    "an easy machine saves little, a seized screw costs much."
    tax: Amount | None = None
    "Share added to the whole; None leaves tax out of the quote."
    rounding: Amount = 1
    "The total is rounded outward to this amount, such as 5 or 1/2."


@dataclass(frozen=True, slots=True)
class Quote:
    """A range of whole currency units in each line, lowest and highest.

    The lines add up to the total before it is rounded outward once more, to the shop's `rounding`.
    """

    currency: str
    minutes: tuple[int, int]
    "Rounded outward to five minutes, to show; labour is reckoned from the exact figures."
    labour: tuple[int, int]
    parts: tuple[int, int]
    tax: tuple[int, int] | None
    "None: tax is left out."
    total: tuple[int | Fraction, int | Fraction]
    "Rounded outward to the shop's `rounding`; no whole units only where that is none."
    unpriced: tuple[str, ...]
    "Parts renewed whose price is not known: the total is without them."
    rounding: str = "Each line is rounded outward to whole units: the low end down, the high end up."


def quote(plan: Plan, practice: Practice, rates: Rates, recorded: float | None = None) -> Quote:
    """The range that a plan comes to. All arithmetic is exact; only the lines shown are rounded.

    `recorded` are the minutes that such jobs took, to rest on instead of the plan's. Waiting is not
    charged: other work is done meanwhile.

    Raises ValueError for a rate, margin, tax, price or spread that is below nothing, for a range
    whose low end is above its high end, for a rounding to 0, and for what is no number.

    >>> from generator.analysis.job.types import Handling
    >>> job = Plan((), (), 38.0, (), ("gear",), (), (), 0, 0, True)
    >>> gear = Practice({"gear": Handling(price=(Fraction(9), Fraction(18)))})
    >>> got = quote(job, gear, Rates(60, "GBP", margin="1/4"))
    >>> got.minutes, got.labour, got.parts, got.total
    ((30, 60), (30, 57), (11, 23), (41, 80))
    """
    whole = plan.minutes if recorded is None else recorded
    hourly = _exact(rates.labour, "labour")
    labour = _outward(_times(_minutes(max(whole - plan.waiting, 0), rates), hourly / 60))
    parts = _outward(_times(_prices(plan.parts, practice), 1 + _exact(rates.margin, "margin")))
    untaxed = _sum(labour, parts)
    tax = None if rates.tax is None else _outward(_times(untaxed, _exact(rates.tax, "tax")))
    return Quote(
        rates.currency,
        _outward(_minutes(whole, rates), 5),
        labour,
        parts,
        tax,
        _outward(_sum(untaxed, tax or (0, 0)), _unit(rates.rounding)),
        tuple(p for p in plan.parts if practice.part(p).price is None),
    )


def _unit(rounding: Amount) -> int | Fraction:
    unit = _exact(rounding, "rounding")
    if not unit:
        raise ValueError("rounding: nothing can be rounded to 0")
    return int(unit) if unit.denominator == 1 else unit


def _minutes(minutes: float, rates: Rates) -> Range:
    """Minutes are binary sums of what people write to the hundredth at most: back to that first."""
    shortest, longest = (_exact(share, "spread") for share in rates.spread)
    planned = Fraction(str(round(minutes, 4)))
    return _times(_ordered((shortest, longest), "spread"), planned)


def _prices(parts: Iterable[str], practice: Practice) -> Range:
    low = high = Fraction(0)
    for part in parts:
        price = practice.part(part).price
        if price is not None:
            least, most = _ordered(price, f"price of {part}")
            low, high = low + least, high + most
    return low, high


def _exact(amount: Amount, what: str) -> Fraction:
    try:
        exact = Fraction(amount)
    except (ValueError, OverflowError, ZeroDivisionError) as error:
        raise ValueError(f"{what}: {amount!r} is no number") from error
    if exact < 0:
        raise ValueError(f"{what}: {amount} is below nothing")
    return exact


def _ordered(ends: Range, what: str) -> Range:
    if not 0 <= ends[0] <= ends[1]:
        raise ValueError(f"{what}: {ends[0]} to {ends[1]} is no range")
    return ends


def _times(ends: tuple[Fraction | int, Fraction | int], factor: Fraction) -> Range:
    return ends[0] * factor, ends[1] * factor


def _sum(one: tuple[int, int], other: tuple[int, int]) -> tuple[int, int]:
    return one[0] + other[0], one[1] + other[1]


def _outward(ends: tuple[Fraction | int, Fraction | int], unit: Any = 1) -> tuple[Any, Any]:
    return floor(ends[0] / unit) * unit, ceil(ends[1] / unit) * unit
