"""Closures: what is reached from somewhere, step by step. Any node that can be hashed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

Node = TypeVar("Node")


def reached(starts: Iterable[Node], after: Callable[[Node], Iterable[Node]]) -> frozenset[Node]:
    """The starts and all that can be reached from them; each node is asked once.

    >>> sorted(reached("a", {"a": "bc", "b": "d", "c": "d", "d": "", "e": "a"}.__getitem__))
    ['a', 'b', 'c', 'd']
    """
    found: set[Node] = set()
    stack = list(starts)
    while stack:
        node = stack.pop()
        if node not in found:
            found.add(node)
            stack.extend(after(node))
    return frozenset(found)


def beyond(start: Node, after: Callable[[Node], Iterable[Node]]) -> frozenset[Node]:
    """All that can be reached from the start; the start itself only if it comes back to itself.

    >>> sorted(beyond("a", {"a": "b", "b": "c", "c": "b"}.__getitem__))
    ['b', 'c']
    """
    return reached(after(start), after)
