"""Random coherent trees, and what they mean by plain enumeration of all states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from math import prod

from hypothesis import strategies as st

from generator.analysis.tree import Event, Gate, Node, event_ids


def gate(kind: str, *inputs: Node | str, k: int = 0, name: str = "g") -> Gate:
    """A gate over nodes or ids of basic events."""
    return Gate(name, "", kind, tuple(Event(i) if isinstance(i, str) else i for i in inputs), k)


def occurs(node: Node, failed: frozenset[str]) -> bool:
    """Whether a node comes true by the definition of its kind."""
    if isinstance(node, Event):
        return node.id in failed
    count = sum(occurs(child, failed) for child in node.inputs)
    return count >= {"any": 1, "all": len(node.inputs), "at_least": node.k}[node.kind]


def states(q: Mapping[str, float]) -> Iterator[tuple[frozenset[str], float]]:
    """Every combination of failed events, with its probability."""
    for pattern in product((False, True), repeat=len(q)):
        chance = prod(p if down else 1 - p for p, down in zip(q.values(), pattern))
        yield frozenset(e for e, down in zip(q, pattern) if down), chance


def probability(node: Node, q: Mapping[str, float]) -> float:
    """The sum over all states in which the node comes true."""
    return sum(chance for failed, chance in states(q) if occurs(node, failed))


def cut_sets(node: Node) -> list[frozenset[str]]:
    """The minimal ones among all combinations that are enough."""
    enough = [s for s, _ in states(dict.fromkeys(event_ids(node), 0.5)) if occurs(node, s)]
    return [s for s in enough if not any(other < s for other in enough)]


@st.composite
def trees(draw: st.DrawFn, events: int = 7, gates: int = 6) -> Gate:
    """Gates over a small stock of events and over earlier gates, so that much is shared."""
    stock: list[Node] = [Event(f"e{i}") for i in range(draw(st.integers(1, events)))]
    for number in range(draw(st.integers(1, gates))):
        inputs = tuple(draw(st.lists(st.sampled_from(stock), min_size=1, max_size=5)))
        kind = draw(st.sampled_from(["any", "all", "at_least"]))
        k = draw(st.integers(1, len(inputs))) if kind == "at_least" else 0
        stock.append(Gate(f"g{number}", "", kind, inputs, k))
    return stock[-1]  # type: ignore[return-value]


@st.composite
def trees_with_probabilities(draw: st.DrawFn) -> tuple[Gate, dict[str, float]]:
    """A tree and a probability for each of its events, 0 and 1 among them."""
    top = draw(trees())
    chance = st.one_of(st.sampled_from([0.0, 1.0, 0.5]), st.floats(0.0, 1.0))
    return top, {e: draw(chance) for e in event_ids(top)}
