"""Against `dd`, a general-purpose decision-diagram library, as an oracle."""

from collections.abc import Mapping
from itertools import combinations

import pytest
from dd.autoref import BDD, Function
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.analysis.fault_tree import minimal_cut_sets, top_probability
from generator.analysis.tree import Event, Gate, Node, event_ids
from tests.analysis.fault_tree.fault_trees import gate, trees_with_probabilities


def as_dd(bdd: BDD, node: Node) -> Function:
    """The node's function, votes written out as every combination."""
    if isinstance(node, Event):
        return bdd.var(node.id)
    inputs = [as_dd(bdd, child) for child in node.inputs]
    k = {"any": 1, "all": len(inputs), "at_least": node.k}[node.kind]
    result = bdd.false
    for chosen in combinations(inputs, k):
        term = bdd.true
        for function in chosen:
            term &= function
        result |= term
    return result


def dd_probability(function: Function, q: Mapping[str, float]) -> float:
    """Shannon expansion along the oracle's own diagram, whose edges may be complemented."""
    known: dict[int, float] = {}

    def of(edge: Function) -> float:
        node = ~edge if edge.negated else edge
        if node.var is not None and int(node) not in known:
            p = q[node.var]
            known[int(node)] = p * of(node.high) + (1 - p) * of(node.low)
        value = 1.0 if node.var is None else known[int(node)]
        return 1 - value if edge.negated else value

    return of(function)


def dd_cut_sets(bdd: BDD, function: Function, events: tuple[str, ...]) -> list[tuple[str, ...]]:
    """Minimal ones among the oracle's satisfying assignments."""
    models = bdd.pick_iter(function, care_vars=events)
    enough = [frozenset(e for e, down in model.items() if down) for model in models]
    minimal = (s for s in enough if not any(other < s for other in enough))
    return sorted((tuple(sorted(s)) for s in minimal), key=lambda s: (len(s), s))


@settings(max_examples=600, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(trees_with_probabilities())
def test_probability_and_cut_sets_agree(case: tuple[Gate, dict]) -> None:
    top, q = case
    bdd = BDD()
    bdd.declare(*q)
    function = as_dd(bdd, top)
    assert top_probability(top, q).value == pytest.approx(dd_probability(function, q), abs=1e-12)
    assert list(minimal_cut_sets(top, q).sets) == dd_cut_sets(bdd, function, tuple(q))


@settings(max_examples=4, deadline=None)
@given(st.randoms(use_true_random=False))
def test_probability_of_200_events_in_shared_groups_agrees(random) -> None:
    events = [f"e{i:03}" for i in range(200)]
    groups = []
    for start in range(0, 200, 8):
        pool = events[start : start + 10]
        votes = [gate("at_least", *random.sample(pool, 4), k=2) for _ in range(3)]
        groups.append(gate("all", *votes, name=f"group-{start}"))
    top = gate("any", gate("at_least", *groups[:5], k=2), *groups[5:], *events)
    q = {e: random.uniform(0.0001, 0.01) for e in event_ids(top)}
    bdd = BDD()
    bdd.declare(*events)
    expected = dd_probability(as_dd(bdd, top), q)
    found = top_probability(top, q)
    assert found.exact
    assert found.value == pytest.approx(expected, rel=1e-10)
