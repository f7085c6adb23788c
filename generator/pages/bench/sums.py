"""What the computed order saves, in bars and in words."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.doubt.order import Order
from generator.bench.diagnosed import Diagnosed
from generator.records.model import Shop
from generator.wording import words


@dataclass(frozen=True, slots=True)
class Sum:
    """Expected minutes of one way to work."""

    name: str
    minutes: float
    width: int
    "Percent of the longest bar."
    ours: bool = False


def sums(diagnosed: Diagnosed) -> tuple[Sum, ...]:
    """The computed order beside the two plain rules."""
    ways = {
        "This order": diagnosed.order.expected_minutes,
        "Likeliest for its cost first": diagnosed.ratio_order_minutes,
        "As the records stand": diagnosed.record_order_minutes,
    }
    longest = max(ways.values()) or 1
    return tuple(
        Sum(name, minutes, round(100 * minutes / longest), name == "This order")
        for name, minutes in ways.items()
    )


def sums_said(totals: tuple[Sum, ...]) -> str:
    """The bars for those who cannot see them."""
    return "Expected minutes to cause and cure: " + ", ".join(
        f"{s.name.lower()} {words.minutes(s.minutes)}" for s in totals
    )


def exactness(order: Order) -> str:
    """Whether the order is proved the best, over what, and how far it could be off if not."""
    if order.exact:
        return (
            "No order takes fewer, of all that do each of these checks and remedies at most once "
            "and see a sign before a dear part."
        )
    return (
        "A good order, not proved the best: from every place that one job in fifty comes to, the six best next steps "
        f"were followed. No order can take fewer than {words.minutes(order.lower_bound)}."
    )


def price_of_caution(diagnosed: Diagnosed, shop: Shop) -> str:
    """What seeing a sign before a dear part adds to a job, with the shop's line."""
    line = f"of {words.minutes(shop.dear_minutes)} or a part of {shop.currency} {shop.dear_price:g} and more"
    if not diagnosed.caution_minutes:
        return f"No remedy here is dear ({line}), so none waits for a sign."
    return f"No remedy {line} is done before its sign was seen: {words.signed_minutes(diagnosed.caution_minutes)} a job."
