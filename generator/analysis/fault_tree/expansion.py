"""Minimal cut sets from the top down, for trees whose decision diagram would not fit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from heapq import heappop, heappush
from math import fsum
from operator import or_

from generator.analysis.fault_tree.cut_set_bounds import (
    BoundsOfGates,
    CutSetBounds,
    weight,
)
from generator.analysis.fault_tree.cut_sets import Limits
from generator.analysis.fault_tree.structure import Structure, Vote

_STEPS_PER_NODE = 0.05
"A combination costs about twenty times what a node of a diagram costs."


@dataclass(frozen=True, slots=True)
class Expansion:
    """The minimal cut sets found, likeliest first, and what the rest can add at most."""

    sets: tuple[tuple[int, ...], ...]
    "Numbers of events, ascending."
    complete: bool
    missed: float
    "Upper bound of the probability that a cut set not found is whole."
    floor: float
    "Lower bound of the top event's probability."
    ceiling: float
    "Upper bound of it."


@dataclass(frozen=True, slots=True)
class _Partial:
    """Events that have failed and votes that must still come true; all of them together."""

    events: int
    "A bit for each event."
    votes: frozenset[Vote]


def expand(tree: Structure, q: Sequence[float], limits: Limits) -> Expansion:
    """Replaces gates by their inputs, the likeliest combination first, until a limit is met.

    The method is that of "A new methodology for obtaining cut sets for fault trees", Transactions
    of the American Nuclear Society 15, 1972, with a queue.
    Combinations are taken by a bound that no cut set from them beats, and combinations equally
    near the newest first. Every set found is minimal: a smaller one weighs less, and all that
    leads to it would have come first. What is not followed up is bounded: events are
    independent, and a gate is at most as likely as its bound.

    >>> tree = Structure(("a", "b", "c"), (Vote(2, (0, 1)), Vote(1, (2, 3))), root=4)
    >>> expand(tree, (0.1, 0.1, 0.1), Limits()).sets
    ((2,), (0, 1))
    """
    search = _Search(tree, q, limits)
    search.push(search.closed(0, [Vote(1, (tree.root,))]))
    steps = int(limits.nodes * _STEPS_PER_NODE)
    while search.waiting and len(search.found) < limits.sets and search.pushed < steps:
        search.step()
    left = (search.ahead(partial).probability for *_, partial in search.waiting)
    top = search.bounds.of(Vote(1, (tree.root,)))
    missed = min(search.dropped + fsum(left), top.probability)
    complete = not search.waiting and not search.cut_off
    sets = tuple(map(_numbers, search.found))
    return Expansion(sets, complete, missed, top.floor, top.probability)


class _Search:
    """The queue of combinations, and what was found and dropped."""

    def __init__(self, tree: Structure, q: Sequence[float], limits: Limits) -> None:
        self.tree = tree
        self._events = len(tree.events)
        self.bounds = BoundsOfGates(tree, q)
        self.waiting: list[tuple[int, int, _Partial]] = []
        self.found: list[int] = []
        self.dropped = 0.0
        self.cut_off = False
        self.pushed = 0
        self._longest = len(q) if limits.order is None else limits.order
        self._heaviest = weight(limits.probability) if limits.probability else sum(map(weight, q))
        self._seen: set[_Partial] = set()
        self._found_by_first: dict[int, list[int]] = {}

    def push(self, partial: _Partial) -> None:
        """Queues a combination, or drops it if no cut set from it is within the limits."""
        if partial in self._seen:
            return
        self._seen.add(partial)
        self.pushed += 1
        ahead = self.ahead(partial)
        if ahead.shortest > self._longest or ahead.weight > self._heaviest:
            self.dropped += ahead.probability
            self.cut_off = True
        else:
            heappush(self.waiting, (ahead.weight, -self.pushed, partial))

    def step(self) -> None:
        """Takes the likeliest combination: a cut set, one that holds a cut set, or one to split."""
        partial = heappop(self.waiting)[-1]
        if self._holds_a_found_set(partial.events):
            return
        if partial.votes:
            for part in self._split(partial):
                self.push(part)
        else:
            self.found.append(partial.events)
            first = partial.events & -partial.events
            self._found_by_first.setdefault(first, []).append(partial.events)

    def ahead(self, partial: _Partial) -> CutSetBounds:
        """Bounds on the cut sets that a combination leads to."""
        return self.bounds.of_all(_numbers(partial.events), sorted(partial.votes, key=_by_size))

    def closed(self, events: int, votes: list[Vote]) -> _Partial:
        """The combination without votes that are settled, and with all that they make certain."""
        waiting, undecided = list(votes), set()
        while waiting:
            vote = waiting.pop()
            rest = tuple(n for n in vote.inputs if not events >> n & 1 or n >= self._events)
            needs = vote.needs - (len(vote.inputs) - len(rest))
            if 0 < needs < len(rest):
                undecided.add(Vote(needs, rest))
            elif needs == len(rest):
                waiting += (self.tree.gates[n - self._events] for n in rest if n >= self._events)
                gained = _bits(n for n in rest if n < self._events)
                events |= gained
                waiting += undecided if gained else ()
                undecided = set() if gained else undecided
        return _Partial(events, frozenset(undecided))

    def _split(self, partial: _Partial) -> Iterator[_Partial]:
        """One combination for each way in which the smallest vote can come true."""
        vote = min(partial.votes, key=_by_size)
        others = list(partial.votes - {vote})
        if vote.needs == 1:
            for number in vote.inputs:
                yield self.closed(partial.events, [*others, Vote(1, (number,))])
        else:
            first, rest = vote.inputs[:1], vote.inputs[1:]
            yield self.closed(partial.events, [*others, Vote(1, first), Vote(vote.needs - 1, rest)])
            yield self.closed(partial.events, [*others, Vote(vote.needs, rest)])

    def _holds_a_found_set(self, events: int) -> bool:
        rest = events
        while rest:
            first = rest & -rest
            if any(found & events == found for found in self._found_by_first.get(first, ())):
                return True
            rest ^= first
        return False


def _bits(numbers: Iterable[int]) -> int:
    return reduce(or_, (1 << n for n in numbers), 0)


def _by_size(vote: Vote) -> tuple[int, int, tuple[int, ...]]:
    return len(vote.inputs), vote.needs, vote.inputs


def _numbers(events: int) -> tuple[int, ...]:
    return tuple(n for n in range(events.bit_length()) if events >> n & 1)
