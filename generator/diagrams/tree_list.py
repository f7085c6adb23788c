"""A fault tree as a nested list."""

from __future__ import annotations

from collections.abc import Mapping

from generator.analysis.tree import Event, Gate, Node
from generator.diagrams.draw import Href
from generator.diagrams.outline import Item

_GATE_WORDS = {"any": "any of", "all": "all of"}


def gate_words(gate: Gate) -> str:
    """How the inputs of a gate belong together.

    >>> gate_words(Gate("g", "", "at_least", (), k=2))
    'at least 2 of'
    """
    return _GATE_WORDS.get(gate.kind) or f"at least {gate.k} of"


def outline(tree: Gate, *, href: Href, shares: Mapping[str, str] = {}) -> Item:
    """All of a fault tree, with the parts that the picture leaves to another symptom's tree.

    `href` and `shares` as for `fault_tree_svg.prepare`.
    """

    def item(node: Node, is_top: bool) -> Item:
        title = node.title or node.id
        if isinstance(node, Event):
            return Item(title, href(node.id), note=shares.get(node.id, ""))
        address = href(node.transfer) if node.transfer and not is_top else None
        under = tuple(item(child, is_top=False) for child in node.inputs)
        return Item(title, address, note=gate_words(node), items=under)

    return item(tree, is_top=True)
