"""A fault tree taken apart into modules: subtrees that share no event with the rest of the tree."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import count

from generator.analysis.fault_tree.structure import Structure, Vote


def modules(tree: Structure) -> tuple[Structure, ...]:
    """The tree as a chain of smaller trees; a number among the events of one names an earlier one.

    The last one is the top event. A module stands for its whole subtree like a single event, so
    that each can be solved by itself. Modules are found by the dates at which a depth-first walk
    meets their nodes first and last ("A linear-time algorithm to find
    modules of fault trees", IEEE Transactions on Reliability 45(3), 1996). Under an `any` or `all`
    gate, the inputs that stand nowhere else and are events or modules form a module together.

    >>> tree = Structure(("a", "b", "c"), (Vote(2, (0, 1)), Vote(1, (2, 3))), root=4)
    >>> for part in modules(tree):
    ...     print(part.events, part.gates)
    ('a', 'b') (Vote(needs=2, inputs=(0, 1)),)
    ('c', 0) (Vote(needs=1, inputs=(0, 1)),)
    """
    tree = _grouped(tree, _roots(tree))
    roots = sorted(_roots(tree) | {tree.root})
    place = {root: part for part, root in enumerate(roots)}
    return tuple(_part(tree, root, place) for root in roots)


@dataclass(slots=True)
class _Dates:
    """When a depth-first walk meets a node."""

    first: int
    left: int
    "When the walk leaves it after the first visit."
    last: int


def _roots(tree: Structure) -> set[int]:
    """The gates whose subtree shares nothing with the rest."""
    dates = _dates(tree)
    spans = [(dates[n].first, dates[n].last) for n in range(len(tree.events))]
    found = set()
    for number, gate in enumerate(tree.gates, start=len(tree.events)):
        first = min(min(spans[n][0], dates[n].first) for n in gate.inputs)
        last = max(max(spans[n][1], dates[n].last) for n in gate.inputs)
        spans.append((first, last))
        if dates[number].first < first and last < dates[number].left:
            found.add(number)
    return found


def _dates(tree: Structure) -> dict[int, _Dates]:
    events = len(tree.events)
    dates: dict[int, _Dates] = {}
    clock = count()
    stack = [(tree.root, False)]
    while stack:
        (number, leaving), now = stack.pop(), next(clock)
        if leaving:
            dates[number].left = dates[number].last = now
        elif number in dates:
            dates[number].last = now
        else:
            dates[number] = _Dates(now, now, now)
            if number >= events:
                stack.append((number, True))
                stack.extend((n, False) for n in reversed(tree.gates[number - events].inputs))
    return dates


def _grouped(tree: Structure, roots: set[int]) -> Structure:
    """The tree with a gate of its own for the inputs of a gate that stand nowhere else."""
    events = len(tree.events)
    uses = Counter(n for gate in tree.gates for n in gate.inputs)
    place = list(range(events))
    gates: list[Vote] = []
    for gate in tree.gates:
        alone = [n for n in gate.inputs if uses[n] == 1 and (n < events or n in roots)]
        shared = [n for n in gate.inputs if uses[n] > 1 or (n >= events and n not in roots)]
        if gate.needs in (1, len(gate.inputs)) and len(alone) > 1 and shared:
            gates.append(_like(gate, [place[n] for n in alone]))
            inputs = [events + len(gates) - 1, *(place[n] for n in shared)]
            gates.append(_like(gate, inputs))
        else:
            gates.append(Vote(gate.needs, tuple(place[n] for n in gate.inputs)))
        place.append(events + len(gates) - 1)
    return Structure(tree.events, tuple(gates), place[tree.root])


def _like(gate: Vote, inputs: list[int]) -> Vote:
    """An `any` gate over other inputs, or an `all` gate."""
    return Vote(1 if gate.needs == 1 else len(inputs), tuple(inputs))


def _part(tree: Structure, root: int, place: dict[int, int]) -> Structure:
    """The tree from one module down to the events and modules next under it."""
    events = len(tree.events)
    inner: set[int] = set()
    leaves: dict[int, None] = {}
    stack = [root]
    while stack:
        number = stack.pop()
        if number < events or (number in place and number != root):
            leaves[number] = None
        elif number not in inner:
            inner.add(number)
            stack.extend(reversed(tree.gates[number - events].inputs))
    local = {n: i for i, n in enumerate([*leaves, *sorted(inner)])}
    gates = (tree.gates[n - events] for n in sorted(inner))
    return Structure(
        tuple(tree.events[n] if n < events else place[n] for n in leaves),
        tuple(Vote(g.needs, tuple(local[n] for n in g.inputs)) for g in gates),
        local[root],
    )
