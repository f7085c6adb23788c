"""Every answer against its definition, by enumeration of all states of small random trees."""

import pytest
from hypothesis import given, settings

from generator.analysis.fault_tree import importance, minimal_cut_sets, top_probability
from generator.analysis.tree import Gate
from tests.analysis.fault_tree.fault_trees import (
    cut_sets,
    gate,
    probability,
    states,
    trees,
    trees_with_probabilities,
)


@settings(deadline=None)
@given(trees_with_probabilities())
def test_top_probability_is_the_sum_over_all_failing_states(case: tuple[Gate, dict]) -> None:
    top, q = case
    assert top_probability(top, q).value == pytest.approx(probability(top, q), abs=1e-12)


@settings(deadline=None)
@given(trees())
def test_minimal_cut_sets_are_the_smallest_failing_combinations(top: Gate) -> None:
    expected = sorted((tuple(sorted(s)) for s in cut_sets(top)), key=lambda s: (len(s), s))
    found = minimal_cut_sets(top)
    assert list(found.sets) == expected
    assert found.exact and found.bound == 0


@settings(deadline=None)
@given(trees_with_probabilities())
def test_importance_keeps_to_the_three_definitions(case: tuple[Gate, dict]) -> None:
    top, q = case
    whole = probability(top, q)
    minimal = cut_sets(top)
    for event, found in importance(top, q).items():
        birnbaum = probability(top, q | {event: 1.0}) - probability(top, q | {event: 0.0})
        holding = [s for s in minimal if event in s]
        union = sum(p for failed, p in states(q) if any(s <= failed for s in holding))
        assert found.birnbaum == pytest.approx(birnbaum, abs=1e-12)
        assert found.fussell_vesely * whole == pytest.approx(union, abs=1e-12)
        assert found.criticality * whole == pytest.approx(birnbaum * q[event], abs=1e-12)
        assert found.exact


def test_a_top_event_that_cannot_occur_has_no_important_event() -> None:
    top = gate("any", "a", "b")
    for found in importance(top, {"a": 0.0, "b": 0.0}).values():
        assert (found.fussell_vesely, found.criticality) == (0, 0)


def test_answers_do_not_depend_on_gate_names_or_titles() -> None:
    plain = gate("any", gate("all", "a", "b", name="x"), gate("all", "b", "a", name="y"))
    assert minimal_cut_sets(plain).sets == (("a", "b"),)


@pytest.mark.parametrize(
    ("top", "q", "words"),
    [
        (gate("any", "a"), {"a": 1.5}, "'a' has the probability 1.5, outside 0 to 1"),
        (gate("any", "a"), {"a": -0.1}, "outside 0 to 1"),
        (gate("any", "a"), {"a": float("nan")}, "outside 0 to 1"),
        (gate("any", "a", "b"), {"a": 0.1}, "'b' has no probability"),
        (gate("at_least", "a", "b", k=3), {"a": 0.1, "b": 0.1}, "asks for 3 of 2 inputs"),
        (gate("at_least", "a", "b"), {"a": 0.1, "b": 0.1}, "asks for 0 of 2 inputs"),
        (Gate("empty", "", "any", ()), {}, "'empty' has no inputs"),
        (gate("xor", "a"), {"a": 0.1}, "unknown kind 'xor'"),
    ],
)
def test_bad_input_ends_in_one_clear_sentence(top: Gate, q: dict, words: str) -> None:
    for ask in (top_probability, minimal_cut_sets, importance):
        with pytest.raises(ValueError, match=words) as caught:
            ask(top, q)
        assert str(caught.value).endswith(".") and "\n" not in str(caught.value)


def test_probabilities_of_other_trees_are_no_concern() -> None:
    assert top_probability(gate("any", "a"), {"a": 0.5, "elsewhere": 9.0}).value == 0.5
