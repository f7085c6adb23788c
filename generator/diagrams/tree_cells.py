"""The nodes of a fault tree as they are drawn: titles in lines, shares, what is lit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.analysis.tree import Event, Gate, Node, event_ids
from generator.diagrams import text

_TEXT = 100.0
"Longest line of a title, px."
_TEXT_LYING_BOX = 88.0
"The same for a gate's box in a lying tree, where every rank adds to the width, px."


@dataclass(frozen=True, slots=True)
class TreeCell:
    """One appearance of a node in the picture, with all that belongs to it."""

    node: Node
    rank: int
    parent: int | None
    "Position of the gate that it feeds, None for the top event."
    lines: tuple[str, ...]
    note: str
    "An event's share, or how many causes a transfer stands for."
    lit: bool

    @property
    def title(self) -> str:
        """What stands in its box."""
        return self.node.title or self.node.id

    @property
    def is_leaf(self) -> bool:
        """Whether nothing is drawn under it."""
        return _is_leaf(self.node, self.parent)

    @property
    def is_transfer(self) -> bool:
        """Whether it stands for a gate that is drawn elsewhere."""
        return self.is_leaf and isinstance(self.node, Gate)


def _is_leaf(node: Node, parent: int | None) -> bool:
    """Basic events, and subtrees that are drawn in full with another symptom."""
    return isinstance(node, Event) or (bool(node.transfer) and parent is not None)


def occurs(node: Node, events: frozenset[str]) -> bool:
    """Whether a node comes about when just these basic events are there.

    >>> both = Gate("g", "", "all", (Event("a"), Event("b")))
    >>> occurs(both, frozenset("a")), occurs(both, frozenset("ab"))
    (False, True)
    """
    if isinstance(node, Event):
        return node.id in events
    needed = {"any": 1, "all": len(node.inputs), "at_least": node.k}[node.kind]
    return sum(occurs(child, events) for child in node.inputs) >= needed


def cells_of(tree: Gate, shares: Mapping[str, str], lit: frozenset[str], lying: bool) -> tuple[TreeCell, ...]:
    """Every node that is drawn, from the top event down, inputs in order."""
    cells: list[TreeCell] = []

    def add(node: Node, rank: int, parent: int | None) -> None:
        limit = _TEXT_LYING_BOX if lying and not _is_leaf(node, parent) else _TEXT
        lines = text.wrap(node.title or node.id, limit, strong=parent is None)
        cell = TreeCell(node, rank, parent, lines, _note(node, shares), occurs(node, lit))
        cells.append(cell)
        if isinstance(node, Gate) and not cell.is_leaf:
            number = len(cells) - 1
            for child in node.inputs:
                add(child, rank + 1, number)

    add(tree, 0, None)
    return tuple(cells)


def _note(node: Node, shares: Mapping[str, str]) -> str:
    if isinstance(node, Event):
        return text.clean(shares.get(node.id, ""))
    count = len(event_ids(node))
    return "1 cause" if count == 1 else f"{count} causes"
