"""How long fault trees take, in seconds of the processor; prints, and judges nothing."""

from random import Random
from time import process_time

import pytest

from generator.analysis.fault_tree import importance, minimal_cut_sets, top_probability
from generator.analysis.tree import Event, Gate, Node


def random_tree(events: int, shared: float, number: int) -> Gate:
    """Gates of two to four inputs over all events, a share of which stand twice, anywhere."""
    random = Random(number)
    stock: list[Node] = [Event(f"e{i}") for i in range(events)]
    nodes = stock + random.choices(stock, k=int(events * shared))
    random.shuffle(nodes)
    while len(nodes) > 1:
        count = random.randint(2, 4)
        inputs, nodes = tuple(nodes[:count]), nodes[count:]
        kind = random.choices(["any", "all", "at_least"], [6, 3, 1])[0]
        k = min(2, len(inputs)) if kind == "at_least" else 0
        nodes.append(Gate(f"g{len(nodes)}", "", kind, inputs, k))
    top = nodes[0]
    assert isinstance(top, Gate)
    return top


@pytest.mark.parametrize("shared", [0.05, 0.1, 0.2, 0.3])
@pytest.mark.parametrize("events", [20, 60, 200])
def test_random_trees(events: int, shared: float) -> None:
    q = {f"e{i}": 0.01 for i in range(events)}
    spent = {ask: [0.0] for ask in (top_probability, minimal_cut_sets, importance)}
    exact = 0
    for number in range(10):
        top = random_tree(events, shared, number)
        for ask, times in spent.items():
            start = process_time()
            ask(top, q)
            times.append(process_time() - start)
        exact += top_probability(top, q).exact
    print(f"\n{events} events, {shared:.0%} of them twice, 10 trees, {exact} exact:")
    for ask, times in spent.items():
        middle = sorted(times[1:])[5]
        print(f"  {ask.__name__}: median {middle:.3f} s, longest {max(times):.3f} s")
