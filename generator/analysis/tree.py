"""What a fault tree is made of: basic events under gates (terms of IEC 61025)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

GateKind = Literal["any", "all", "at_least"]


@dataclass(frozen=True, slots=True)
class Event:
    """A basic event: one failure mode."""

    id: str
    "The failure mode's id; the same id in two places is the same event."
    title: str = ""


@dataclass(frozen=True, slots=True)
class Gate:
    """A gate over events and further gates; the outermost one is the top event."""

    id: str
    title: str
    kind: GateKind
    "any: one input is enough (OR). all: every input (AND). at_least: `k` of them (vote)."
    inputs: tuple[Gate | Event, ...]
    k: int = 0
    "Inputs needed by an `at_least` gate, 1 to len(inputs); 0 for the other kinds."
    transfer: str = ""
    "`symptom/gate` when this subtree is shared from another symptom's tree."


Node = Gate | Event


def walk(node: Node) -> Iterator[Node]:
    """Every node from the top down, inputs in order; shared subtrees as often as they stand.

    >>> [n.id for n in walk(Gate("top", "", "any", (Event("a"), Event("b"))))]
    ['top', 'a', 'b']
    """
    yield node
    if isinstance(node, Gate):
        for child in node.inputs:
            yield from walk(child)


def event_ids(node: Node) -> tuple[str, ...]:
    """The ids of the basic events, each once, in order of first appearance."""
    return tuple(dict.fromkeys(n.id for n in walk(node) if isinstance(n, Event)))
