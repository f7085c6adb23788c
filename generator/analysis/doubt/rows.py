"""Rows of a case in numbers: a check and a remedy, every id an index, every set an integer with one bit for each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import NamedTuple

Weights = tuple[float, ...]
"By cause, the unlisted one last."
Pick = Callable[[Weights], Weights]


def picks(causes: Sequence[int]) -> Pick:
    """Takes the weights of some causes out of all weights, quickly: a tuple, of one and of none too.

    >>> picks([0, 2])((0.5, 0.3, 0.2)), picks([1])((0.5, 0.3, 0.2)), picks([])((0.5, 0.3, 0.2))
    ((0.5, 0.2), (0.3,), ())
    """
    first = causes[0] if causes else 0
    return itemgetter(*causes) if len(causes) > 1 else itemgetter(slice(first, first + len(causes)))


def bits(those: Iterable[bool]) -> int:
    """A set as an integer: whether each number from 0 on is in it."""
    return sum([1 << n for n, held in enumerate(those) if held])


def numbers(bits: int) -> list[int]:
    """The numbers in a set, the least first."""
    found = []
    while bits:
        least = bits & -bits
        found.append(least.bit_length() - 1)
        bits ^= least
    return found


Mending = tuple[float, int]
"A remedy as it may still cure: its minutes from here, opening and proof included, and the place of its chance."


class Step(NamedTuple):
    """A check or a remedy as it may come next."""

    minutes: float
    "From here, its opening included."
    told: Pick
    "The weights of the causes that it tells or cures and that are still to be mended."
    bit: int
    "In a set of steps: first the checks, then the remedies."


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check by its numbers."""

    id: str
    minutes: float
    parts: int
    sees: tuple[int, ...]
    "By cause, the unlisted one last."
    sound: int
    outcomes: tuple[int, ...]
    "Those that do not end the job."
    cured: frozenset[int]
    chances: tuple[tuple[float, ...], ...]
    "By outcome, then by cause: the probability that it is seen."
    proves: tuple[int, ...]
    "By outcome: the remedies whose sign it is."
    tells: tuple[int, ...]
    "Listed causes that show something else than a sound machine does, there or where it is waited for."
    does: int
    "Remedies that are done by it."
    safe: bool
    "Whether it must be found sound before power goes on."
    powered: bool
    after: int
    "Checks that must be done before it."


@dataclass(frozen=True, slots=True)
class RemedyRow:
    """A remedy by its numbers."""

    id: str
    minutes: float
    "Settings, own minutes, proving sew; opening not counted."
    parts: int
    causes: tuple[int, ...]
    "Those that it cures."
    proofs: tuple[int, ...]
    "Checks that can show its sign."
    needs_proof: bool
    after: int
    "Checks that must be done before it."
