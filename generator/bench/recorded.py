"""How long a shop's own finished jobs took, where it wrote down enough of them."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from statistics import median

from generator.family_view import FamilyView
from generator.records.model import Shop

ENOUGH = 3
"Jobs from which their middle one stands for the next: one or two may have been easy or seized."


@dataclass(frozen=True, slots=True)
class Recorded:
    """What finished jobs of one remedy took."""

    jobs: int
    minutes: float
    "The middle one's, from the first look to the proved machine."


def recorded(view: FamilyView, modes: Collection[str], shop: Shop) -> Recorded | None:
    """The shop's own jobs that put one of the failure modes right; None where it recorded too few.

    The tallies of other shops count faults, and say nothing of how fast this one works.
    """
    own = (tally for tally in view.tallies if tally.shop in (None, shop.shop))
    spent = [minutes for tally in own for took in tally.took if took.mode in modes for minutes in took.minutes]
    return Recorded(len(spent), median(spent)) if len(spent) >= ENOUGH else None
