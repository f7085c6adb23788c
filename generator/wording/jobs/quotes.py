"""What a job is quoted at, in words, as generator/assets/js/planner/money.js says it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.analysis.job.money import Quote
from generator.bench.jobs import Job
from generator.bench.recorded import Recorded
from generator.records.model import Shop
from generator.wording import words


def range_of_money(ends: tuple[int | Fraction, int | Fraction], currency: str) -> str:
    """A range of money as it is read.

    >>> range_of_money((55, 100), "€"), range_of_money((0, 5), "€"), range_of_money((7, 7), "€")
    ('€55 to €100', 'up to €5', '€7')
    >>> range_of_money((Fraction(5, 2), 5), "GBP ")
    'GBP 2.50 to GBP 5'
    """
    low, high = (f"{currency}{_amount(end)}" for end in ends)
    if ends[0] == ends[1]:
        return low
    return f"{low} to {high}" if ends[0] else f"up to {high}"


def _amount(money: int | Fraction) -> str:
    return str(money) if Fraction(money).denominator == 1 else f"{float(money):.2f}"


def quote_lines(job: Job, shop: Shop) -> tuple[str, ...]:
    """The quote, its lines, and what they rest on."""
    if job.quote is None:
        return ("No quote: the shop's rate for an hour is not given.",)
    return tuple(_quote_lines(job, job.quote, shop))


def own_jobs(took: Recorded) -> str:
    """What the shop's own jobs took, as `ownJobs` of the planner says it."""
    return f"The middle of this shop's own {took.jobs} such jobs took {words.minutes(took.minutes)}, looking included."


def _rests_on(job: Job) -> str:
    return "that" if job.recorded else f"{words.minutes(job.plan.minutes)} as planned"


def _waiting(job: Job) -> str:
    if not job.plan.waiting:
        return ""
    whole = job.recorded.minutes if job.recorded else job.plan.minutes
    share = words.percent(min(job.plan.waiting / whole, 1))
    return f" ({words.minutes(job.plan.waiting)} of it, {share}, is waiting and not charged)"


def _quote_lines(job: Job, priced: Quote, shop: Shop) -> Iterator[str]:
    yield f"Labour {range_of_money(priced.labour, shop.currency)}" + (
        f", parts {range_of_money(priced.parts, shop.currency)}." if job.plan.parts else ", no parts."
    )
    if job.recorded:
        yield own_jobs(job.recorded)
    over = f" to {words.percent(shop.spread)} over" if shop.spread else ""
    margin = f", parts at their price and {words.percent(shop.margin)}" if shop.margin and job.plan.parts else ""
    yield (
        f"Rests on {_rests_on(job)}{_waiting(job)}{over}"
        f", {shop.currency}{_amount(Fraction(str(shop.labour_rate)))}"
        f" an hour{margin}; rounded outward to {shop.currency}{_amount(Fraction(str(shop.rounding)))}."
    )
    if priced.unpriced:
        yield f"Without the price of {len(priced.unpriced)} part{'s' * (len(priced.unpriced) > 1)} that the book has no price for."
    if shop.tax:
        yield f"{shop.tax.rstrip('.')}."
    if shop.invented:
        yield "The shop and its prices are invented."
    yield "A quote given before the machine is open is a range: tell the owner when it passes what the machine is worth."
