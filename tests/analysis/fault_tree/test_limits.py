"""Large, deep and exploding trees."""

from math import comb, prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.fault_tree import (
    Limits,
    importance,
    minimal_cut_sets,
    top_probability,
)
from generator.analysis.fault_tree.answers import _said
from generator.analysis.fault_tree.cut_set_bounds import _at_most
from generator.analysis.tree import Event, Gate, Node, event_ids
from tests.analysis.fault_tree.fault_trees import (
    cut_sets,
    gate,
    probability,
    trees_with_probabilities,
)


def vote_of_200() -> tuple[Gate, dict[str, float]]:
    events = [f"e{i:03}" for i in range(200)]
    return gate("at_least", *events, k=3), dict.fromkeys(events, 0.01)


def tangle(events: int, gates: int) -> tuple[Gate, dict[str, float]]:
    """Every pair of gates shares events, far apart: no variable order is good."""
    step = [1, 7, 11, 13, 17, 19]
    parts = [
        gate("any", *(f"e{(g * s + s * s) % events:03}" for s in step), name=f"g{g}")
        for g in range(gates)
    ]
    top = gate("at_least", *parts, k=gates // 2)
    return top, dict.fromkeys(event_ids(top), 0.02)


def test_three_of_200_is_the_binomial_tail() -> None:
    # Closed form: 1 - P(0) - P(1) - P(2) of the binomial distribution.
    top, q = vote_of_200()
    tail = 1 - sum(comb(200, i) * 0.01**i * 0.99 ** (200 - i) for i in range(3))
    assert top_probability(top, q).value == pytest.approx(tail)
    one_down = comb(199, 2) * 0.01**2 * 0.99**197
    assert importance(top, q)["e100"].birnbaum == pytest.approx(one_down)


def test_cut_sets_beyond_the_limit_are_bounded_by_what_they_add_up_to() -> None:
    top, q = vote_of_200()
    found = minimal_cut_sets(gate("any", top, "single"), q | {"single": 0.1}, Limits(sets=100))
    assert found.sets == (("single",),)
    assert not found.exact
    assert found.bound == pytest.approx(min(1, comb(200, 3) * 0.01**3))


def test_where_the_shortest_cut_sets_are_too_many_the_first_are_listed() -> None:
    top, q = vote_of_200()
    found = minimal_cut_sets(top, dict.fromkeys(q, 0.001), Limits(sets=100))
    assert len(found.sets) == 100
    assert found.bound == pytest.approx((comb(200, 3) - 100) * 0.001**3)


def test_a_limit_by_order_or_probability_drops_the_rest_and_says_so() -> None:
    top = gate("any", "a", gate("all", "b", "c"), gate("all", "b", "d", "e"))
    q = dict.fromkeys("abcde", 0.1)
    by_order = minimal_cut_sets(top, q, Limits(order=2))
    assert by_order.sets == (("a",), ("b", "c"))
    assert by_order.bound == pytest.approx(0.001)
    assert minimal_cut_sets(top, q, Limits(probability=0.005)) == by_order
    assert "at most 0.001" in by_order.said
    assert minimal_cut_sets(top, None, Limits(order=2)).bound is None
    with pytest.raises(ValueError, match="needs the probabilities"):
        minimal_cut_sets(top, None, Limits(probability=0.005))


@settings(max_examples=300, deadline=None)
@given(trees_with_probabilities(), st.integers(0, 200))
def test_bounds_hold_however_small_the_budget(case: tuple[Gate, dict], nodes: int) -> None:
    top, q = case
    exact = probability(top, q)
    found = top_probability(top, q, Limits(nodes=nodes))
    assert found.lower - 1e-12 <= exact <= found.upper + 1e-12
    assert found.exact is False or found.value == pytest.approx(exact, abs=1e-12)


@settings(max_examples=300, deadline=None)
@given(trees_with_probabilities(), st.integers(0, 200), st.integers(1, 8), st.integers(1, 4))
def test_truncated_cut_sets_are_minimal_and_the_rest_is_bounded(
    case: tuple[Gate, dict], nodes: int, sets: int, order: int
) -> None:
    top, q = case
    every = cut_sets(top)
    found = minimal_cut_sets(top, q, Limits(nodes=nodes, sets=sets, order=order))
    listed = [frozenset(s) for s in found.sets]
    assert all(s in every and len(s) <= order for s in listed)
    assert len(listed) == len(set(listed)) <= sets
    left = [gate("all", *sorted(s)) for s in every if s not in listed]
    union = probability(gate("any", *left), q) if left else 0.0
    assert not (found.exact and left)
    assert found.bound is not None and found.bound >= union - 1e-12


@settings(max_examples=200, deadline=None)
@given(trees_with_probabilities())
def test_expansion_alone_finds_the_same_cut_sets(case: tuple[Gate, dict]) -> None:
    top, q = case
    found = minimal_cut_sets(top, q, Limits(nodes=0))
    assert not found.exact or set(map(frozenset, found.sets)) == set(cut_sets(top))


def test_a_tree_that_explodes_is_bounded_and_says_so() -> None:
    top, q = tangle(60, 24)
    whole = top_probability(top, q, Limits(nodes=10_000_000))
    part = top_probability(top, q, Limits(nodes=5_000))
    assert whole.exact and not part.exact
    assert 0 < part.lower <= whole.value <= part.upper <= 1
    measures = importance(top, q, Limits(nodes=5_000))
    assert sorted(measures) == sorted(q)
    assert not any(m.exact for m in measures.values())


def test_a_tree_that_no_order_can_tame_still_ends() -> None:
    top, q = tangle(200, 80)
    limits = Limits(nodes=50_000)
    found = top_probability(top, q, limits)
    assert not found.exact
    assert 0 <= found.lower <= found.upper <= 1
    sets = minimal_cut_sets(top, q, limits)
    assert not sets.exact and sets.bound is not None


def test_cut_sets_too_many_to_list_are_counted_out_by_their_sum() -> None:
    # 10^30 cut sets: thirty gates of ten events, all of which must come true.
    parts = [gate("any", *(f"e{g}-{i}" for i in range(10)), name=f"g{g}") for g in range(30)]
    q = {f"e{g}-{i}": 0.001 for g in range(30) for i in range(10)}
    top = gate("all", *parts)
    found = minimal_cut_sets(top, q)
    assert not found.exact
    assert len(found.sets) == Limits().sets
    assert found.bound == pytest.approx(1e30 * 0.001**30)
    # Closed form: independent gates multiply.
    assert top_probability(top, q).value == pytest.approx((1 - 0.999**10) ** 30)


@pytest.mark.parametrize("kind", ["any", "all"])
def test_a_tree_2000_gates_deep_is_no_trouble(kind: str) -> None:
    node: Node = Event("e0")
    for i in range(1, 2001):
        node = gate("all" if i % 2 else kind, f"e{i}", node)
    q = {f"e{i}": 0.5 for i in range(2001)}
    expected = 0.5
    for i in range(1, 2001):
        expected = expected / 2 if kind == "all" or i % 2 else expected / 2 + 0.5
    assert isinstance(node, Gate)
    assert top_probability(node, q).value == pytest.approx(expected, rel=1e-9, abs=1e-300)
    assert len(importance(node, q)) == 2001
    assert minimal_cut_sets(node, q).sets


def test_a_subtree_shared_sixty_times_over_is_solved_once() -> None:
    node: Node = gate("all", "a", "b")
    for i in range(60):
        node = Gate(f"g{i}", "", "any", (node, node))
    assert isinstance(node, Gate)
    assert minimal_cut_sets(node).sets == (("a", "b"),)


def test_products_of_many_events_are_exact() -> None:
    # Closed form: an all gate multiplies.
    q = {f"e{i}": 0.5 + i / 1000 for i in range(200)}
    assert top_probability(gate("all", *q), q).value == pytest.approx(prod(q.values()))


def test_the_upper_bound_of_a_vote_holds_where_its_inputs_are_one_event() -> None:
    """Two of three that are the same event come true as often as it; of independent ones 0.028, which would be no bound."""
    assert _at_most(2, (0.1, 0.1, 0.1), apart=False) >= 0.1
    assert _at_most(1, (0.1, 0.1), apart=False) == pytest.approx(1 - 0.9**2)
    assert _at_most(2, (0.1, 0.1, 0.1), apart=True) == pytest.approx(0.028)


def test_one_set_is_spoken_of_as_one() -> None:
    assert _said(1, True, None) == "1 minimal cut set and no more."
    assert _said(2, True, None) == "2 minimal cut sets and no more."
