"""Lines of a tree between two ranks, turned so that no two parents share a line by accident."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.diagrams.layout import Point

Fan = tuple[float, tuple[float, ...]]
"Where a parent stands across the tree, and where its children stand, in order, px."

_CLEAR = 5.0
"Lines in one lane that come nearer than this would read as one, px."


@dataclass(frozen=True, slots=True)
class Branch:
    """A parent and its children, where the lines leave and arrive."""

    rank: int
    start: Point
    ends: tuple[Point, ...]


def _step(first: Fan, second: Fan) -> int:
    """How many lanes further along a parent must turn than its neighbour before it."""
    (start, children), (next_start, next_children) = first, second
    if start + _CLEAR >= next_children[0]:
        return 1
    return -1 if children[-1] + _CLEAR >= next_start else 0


def turns(fans: Sequence[Fan]) -> list[float]:
    """For each parent of a rank, how far into the channel its lines turn: a share, 0 to 1.

    Parents whose lines would run over one another get lanes of their own, in the order in which they do
    not cross. `fans` stand in order across the tree, and each has a child. Linear.

    >>> turns([(10, (0, 20)), (50, (40, 60))])
    [0.5, 0.5]
    >>> turns([(50, (0, 30)), (70, (40, 90))])
    [0.3333333333333333, 0.6666666666666666]
    """
    lanes = [0] if fans else []
    for first, second in pairwise(fans):
        step = _step(first, second)
        lanes.append(lanes[-1] + step if step else 0)
    lowest, highest = min(lanes, default=0), max(lanes, default=0)
    return [(lane - lowest + 1) / (highest - lowest + 2) for lane in lanes]


def turning(branches: Sequence[Branch], channel: float, lying: bool) -> list[float]:
    """Where each branch's lines turn: its x, or its y in a tree that stands.

    `channel` is the gap between ranks, px; all ends of a rank lie on its far side. The children of
    parents in one rank stand in the order of their parents.
    """
    across, along = (1, 0) if lying else (0, 1)
    share: dict[int, float] = {}
    for rank in sorted({branch.rank for branch in branches}):
        of_rank = [n for n, branch in enumerate(branches) if branch.rank == rank]
        of_rank.sort(key=lambda n: (branches[n].start[across], n))
        fans = [(branches[n].start[across], tuple(sorted(e[across] for e in branches[n].ends))) for n in of_rank]
        share.update(zip(of_rank, turns(fans), strict=True))
    return [branch.ends[0][along] - channel * (1 - share[n]) for n, branch in enumerate(branches)]
