"""A fault tree as numbers: the form in which it is computed with."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.analysis.tree import Event, Gate, gates_upward


@dataclass(frozen=True, slots=True)
class Vote:
    """At least `needs` of the inputs: 1 is an `any` gate, all of them an `all` gate."""

    needs: int
    inputs: tuple[int, ...]
    "Numbers of events and of gates that stand earlier."


@dataclass(frozen=True, slots=True)
class Structure:
    """A coherent tree without repetition: equal subtrees are one gate."""

    events: tuple[str | int, ...]
    "Ids (a number stands for a module); an event's number is its place here, and so its level."
    gates: tuple[Vote, ...]
    "Gate j has the number len(events) + j; a gate stands after the gates under it."
    root: int
    "The number of the top event."


def structure(top: Gate) -> Structure:
    """Numbers a tree, events by first appearance from the bottom up, small inputs of a gate first.

    Raises ValueError for a gate without inputs or with a `k` outside 1 to the number of inputs.

    >>> both = Gate("both", "", "all", (Event("a"), Event("b")))
    >>> structure(Gate("top", "", "any", (both, Event("c"), Event("a"))))
    ... # doctest: +NORMALIZE_WHITESPACE
    Structure(events=('a', 'b', 'c'),
              gates=(Vote(needs=2, inputs=(0, 1)), Vote(needs=1, inputs=(0, 2, 3))), root=4)
    """
    names: dict[str, int] = {}
    gates: list[Vote] = []
    numbers: dict[int, int] = {}
    interned: dict[Vote, int] = {}
    sizes: dict[int, int] = {}
    for gate in gates_upward(top):
        inputs = [_number(n, names, numbers) for n in gate.inputs]
        vote = _vote(gate, sorted(inputs, key=lambda n: (sizes.get(n, 1), n)))
        if len(vote.inputs) == 1:
            numbers[id(gate)] = vote.inputs[0]
            continue
        if vote not in interned:
            gates.append(vote)
            interned[vote] = -len(gates)
            sizes[-len(gates)] = 1 + sum(sizes.get(n, 1) for n in vote.inputs)
        numbers[id(gate)] = interned[vote]
    return _numbered(tuple(names), gates, numbers[id(top)])


def checked(events: Iterable[Any], q: Mapping[str, float]) -> dict[str, float]:
    """The probabilities of the events.

    Raises ValueError, naming the event, if one is missing or outside 0 to 1.
    """
    events = tuple(events)
    missing = next((e for e in events if e not in q), None)
    if missing is not None:
        raise ValueError(f"Event {missing!r} has no probability.")
    wrong = next((e for e in events if not 0 <= q[e] <= 1), None)
    if wrong is not None:
        raise ValueError(f"Event {wrong!r} has the probability {q[wrong]!r}, outside 0 to 1.")
    return {e: float(q[e]) for e in events}


def _number(node: Gate | Event, names: dict[str, int], numbers: dict[int, int]) -> int:
    """Events count up from 0, gates down from -1, until the number of events is known."""
    if isinstance(node, Event):
        return names.setdefault(node.id, len(names))
    return numbers[id(node)]


def _vote(gate: Gate, inputs: list[int]) -> Vote:
    """Only `any` and `all` may drop a repeated input: in a vote it counts as often as it stands."""
    needs = _needs(gate)
    if needs not in (1, len(inputs)):
        return Vote(needs, tuple(inputs))
    distinct = tuple(dict.fromkeys(inputs))
    return Vote(1 if needs == 1 else len(distinct), distinct)


def _needs(gate: Gate) -> int:
    if not gate.inputs:
        raise ValueError(f"Gate {gate.id!r} has no inputs.")
    if gate.kind == "any":
        return 1
    if gate.kind == "all":
        return len(gate.inputs)
    if gate.kind != "at_least":
        raise ValueError(f"Gate {gate.id!r} is of the unknown kind {gate.kind!r}.")
    if not 1 <= gate.k <= len(gate.inputs):
        raise ValueError(f"Gate {gate.id!r} asks for {gate.k} of {len(gate.inputs)} inputs.")
    return gate.k


def _numbered(events: tuple[str, ...], gates: list[Vote], root: int) -> Structure:
    """Gates numbered on from the events."""

    def final(number: int) -> int:
        return number if number >= 0 else len(events) - number - 1

    votes = (Vote(g.needs, tuple(map(final, g.inputs))) for g in gates)
    return Structure(events, tuple(votes), final(root))
