"""What the computed order saves, in bars and in words."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order import Solution
from generator.bench.diagnosed import Diagnosed
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
        "This order": diagnosed.solution.expected_minutes,
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


def exactness(solution: Solution) -> str:
    """Whether the order is proved the best, and how far it could be off if not."""
    if solution.exact:
        return "No order of these checks takes fewer."
    bound = words.minutes(solution.lower_bound)
    return f"A good order, not proved the best: no order can take fewer than {bound}."
