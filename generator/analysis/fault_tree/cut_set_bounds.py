"""What a subtree can lead to, bounded without expanding it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from math import fsum, log, prod
from operator import or_

from generator.analysis.fault_tree.structure import Structure, Vote

_WEIGHT = 1_000_000
"Weight of an event that is as likely as 1/e. Whole numbers: sums of them are free of rounding."
_RAREST = 1e-300
"An event that cannot occur weighs as one of this probability."


@dataclass(frozen=True, slots=True)
class CutSetBounds:
    """Bounds on the cut sets of a function."""

    floor: float
    "Lower bound of the function's probability."
    probability: float
    "Upper bound of it."
    weight: int
    "Lower bound of the weight of any of its cut sets, see `weight`."
    shortest: int
    "Lower bound of the number of events in any of its cut sets."
    events: int
    "The events it rests on, a bit for each."


def weight(probability: float) -> int:
    """What an event adds to a cut set's weight: at least 1, so that every event adds something.

    The product of the probabilities falls as the sum of the weights rises, to six digits.

    >>> weight(0.1), weight(1.0)
    (2302585, 1)
    """
    return max(1, round(-log(max(probability, _RAREST)) * _WEIGHT))


class BoundsOfGates:
    """Bounds for the gates of one tree, and for votes over its numbers."""

    def __init__(self, tree: Structure, q: Sequence[float]) -> None:
        self._votes: dict[Vote, CutSetBounds] = {}
        self._numbers = [CutSetBounds(p, p, weight(p), 1, 1 << n) for n, p in enumerate(q)]
        for gate in tree.gates:
            self._numbers.append(self.of(gate))

    def of(self, vote: Vote) -> CutSetBounds:
        """Bounds for one vote."""
        known = self._votes.get(vote)
        if known is None:
            inputs = [self._numbers[n] for n in vote.inputs]
            known = self._votes[vote] = _of_vote(vote.needs, inputs)
        return known

    def of_all(self, events: Sequence[int], votes: Sequence[Vote]) -> CutSetBounds:
        """Bounds for the case that some events have failed and all of some votes come true.

        Only votes that share no event with what is counted already add to them.
        """
        terms = [self._numbers[n] for n in events]
        counted = sum(term.events for term in terms)
        outlooks = [self.of(vote) for vote in votes]
        for ahead in outlooks:
            if not ahead.events & counted:
                terms.append(ahead)
                counted |= ahead.events
        probability = prod(term.probability for term in terms)
        return CutSetBounds(
            prod(i.floor for i in (*terms[: len(events)], *outlooks)),
            min([probability, *(ahead.probability for ahead in outlooks)]),
            sum(term.weight for term in terms),
            sum(term.shortest for term in terms),
            counted,
        )


def _of_vote(needs: int, inputs: Sequence[CutSetBounds]) -> CutSetBounds:
    apart = _apart(inputs)
    weights = sorted(i.weight for i in inputs)[:needs]
    shortest = sorted(i.shortest for i in inputs)[:needs]
    return CutSetBounds(
        _at_least(needs, [i.floor for i in inputs], apart),
        _at_most(needs, [i.probability for i in inputs], apart),
        sum(weights) if apart else weights[-1],
        sum(shortest) if apart else shortest[-1],
        reduce(or_, (i.events for i in inputs)),
    )


def _apart(inputs: Sequence[CutSetBounds]) -> bool:
    """Whether no two inputs rest on the same event."""
    together = reduce(or_, (i.events for i in inputs))
    return together.bit_count() == sum(i.events.bit_count() for i in inputs)


def _at_least(needs: int, probabilities: Sequence[float], apart: bool) -> float:
    """Lower bound of the probability that `needs` of the inputs come true.

    Inputs that share events come true together at least as often as if they were independent
    (Esary and Proschan, as below), whichever `needs` of them are taken.
    """
    if apart:
        return _independent(needs, probabilities)
    return prod(sorted(probabilities, reverse=True)[:needs])


def _at_most(needs: int, probabilities: Sequence[float], apart: bool) -> float:
    """Upper bound of the probability that `needs` of the inputs come true.

    Inputs that rest on different events are independent. For others: not one of them comes true
    at least as often as if they were independent (Technometrics 5, 1963); all of them at
    most as often as the rarest; `needs` of them by Markov's inequality.
    """
    if needs == len(probabilities) and not apart:
        return min(probabilities)
    if needs > 1 and not apart:
        return min(1.0, fsum(probabilities) / needs)
    return _independent(needs, probabilities)


def _independent(needs: int, probabilities: Sequence[float]) -> float:
    """The probability that at least `needs` of independent events come true."""
    reached = [1.0] + [0.0] * needs
    for p in probabilities:
        for j in range(needs, 0, -1):
            reached[j] += p * (reached[j - 1] - reached[j])
    return reached[needs]
