"""Rounds in a graph: what comes back to itself."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

Graph = Mapping[str, Iterable[str]]


def rounds(graph: Graph) -> list[tuple[str, ...]]:
    """A shortest round for every node that is in one and that no round before it has named.

    Nodes are taken in order of id; a round begins and ends at its node. Loops of one node are left out.

    >>> rounds({"a": "b", "b": "ca", "c": "b", "d": "d"})
    [('a', 'b', 'a'), ('c', 'b', 'c')]
    """
    named: set[str] = set()
    found: list[tuple[str, ...]] = []
    for node in sorted(graph):
        back = shortest(graph, node, node) if node not in named else None
        if back:
            found.append(back)
            named.update(back)
    return found


def shortest(graph: Graph, start: str, end: str) -> tuple[str, ...] | None:
    """A shortest way along edges from start to end, ties by id; a loop of one node is no way.

    Cost: each edge once (breadth-first search).

    >>> shortest({"a": "bc", "b": "d", "c": "d"}, "a", "d")
    ('a', 'b', 'd')
    """
    seen = {start}
    ways: deque[tuple[str, ...]] = deque([(start,)])
    while ways:
        way = ways.popleft()
        for after in sorted(graph.get(way[-1], ())):
            if after == end and after != way[-1]:
                return (*way, after)
            if after not in seen:
                seen.add(after)
                ways.append((*way, after))
    return None


def spelled(way: Iterable[str]) -> str:
    """A round in words, for a message."""
    return " -> ".join(way)
