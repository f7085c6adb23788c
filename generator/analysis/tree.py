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
    stack = [node]
    while stack:
        node = stack.pop()
        yield node
        if isinstance(node, Gate):
            stack.extend(reversed(node.inputs))


def gates_upward(top: Gate) -> tuple[Gate, ...]:
    """Every gate object once, a gate after the gates under it; `top` is the last.

    A shared subtree is entered once only, so the cost is that of the distinct objects.

    >>> low = Gate("low", "", "all", (Event("a"), Event("b")))
    >>> [gate.id for gate in gates_upward(Gate("top", "", "any", (low, low)))]
    ['low', 'top']
    """
    done: list[Gate] = []
    entered = {id(top)}
    stack = [(top, iter(top.inputs))]
    while stack:
        gate, rest = stack[-1]
        below = next((n for n in rest if isinstance(n, Gate) and id(n) not in entered), None)
        if below is None:
            done.append(gate)
            stack.pop()
        else:
            entered.add(id(below))
            stack.append((below, iter(below.inputs)))
    return tuple(done)


def event_ids(node: Node) -> tuple[str, ...]:
    """The ids of the basic events, each once, in order of first appearance."""
    found: dict[str, None] = {}
    entered: set[int] = set()
    stack = [node]
    while stack:
        node = stack.pop()
        if isinstance(node, Event):
            found.setdefault(node.id)
        elif id(node) not in entered:
            entered.add(id(node))
            stack.extend(reversed(node.inputs))
    return tuple(found)
