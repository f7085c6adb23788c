"""A tree cut down to one family."""

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.folding import LeftOut, fold
from generator.analysis.tree import Event, Gate, Node, event_ids, walk
from tests.analysis.fault_tree.fault_trees import gate, occurs, states, trees

WHY = "this family has no drop-feed lever"


def without(*gone: str):
    return lambda event: WHY if event in gone else None


@settings(max_examples=300, deadline=None)
@given(trees(), st.sets(st.sampled_from([f"e{i}" for i in range(7)])))
def test_folding_takes_the_left_out_events_as_never_occurring(top: Gate, gone: set[str]) -> None:
    folded = fold(top, without(*gone))
    for failed, _ in states(dict.fromkeys(event_ids(top), 0.5)):
        expected = occurs(top, failed - gone)
        assert expected == (folded.tree is not None and occurs(folded.tree, failed))


@settings(deadline=None)
@given(trees(), st.sets(st.sampled_from([f"e{i}" for i in range(7)])))
def test_every_event_stands_in_the_tree_or_among_those_left_out(top: Gate, gone: set[str]) -> None:
    folded = fold(top, without(*gone))
    standing = event_ids(folded.tree) if folded.tree else ()
    left_out = [item.id for item in folded.left_out]
    assert sorted((*standing, *left_out)) == sorted(event_ids(top))
    assert not gone & set(standing)
    assert left_out == [e for e in event_ids(top) if e in left_out]


@settings(deadline=None)
@given(trees())
def test_gates_under_the_top_keep_at_least_two_inputs(top: Gate) -> None:
    tree = fold(top, without("e0")).tree
    below: list[Node] = list(walk(tree))[1:] if tree else []
    assert all(len(n.inputs) > 1 for n in below if isinstance(n, Gate))


def test_an_any_gate_goes_on_without_a_lost_input() -> None:
    folded = fold(gate("any", "a", "b", "c"), without("b"))
    assert folded.tree == gate("any", "a", "c")
    assert folded.left_out == (LeftOut("b", WHY),)


def test_an_all_gate_goes_whole_and_says_why() -> None:
    lever = Event("lever", "Feed left lowered")
    low = Gate("low", "Feed stays low", "all", (lever, Event("spring")))
    folded = fold(gate("any", low, "lint", "teeth"), without("lever"))
    assert folded.tree == gate("any", "lint", "teeth")
    assert folded.left_out == (
        LeftOut("lever", WHY),
        LeftOut("spring", f"it counts only together with “Feed left lowered”, and {WHY}"),
    )


def test_an_event_that_stands_elsewhere_is_not_left_out() -> None:
    low = gate("all", "lever", "spring", name="low")
    folded = fold(gate("any", low, "spring"), without("lever"))
    assert folded.left_out == (LeftOut("lever", WHY),)


def test_a_vote_keeps_its_number_of_what_is_left() -> None:
    vote = gate("at_least", "a", "b", "c", "d", k=2)
    assert fold(vote, without("a")).tree == gate("at_least", "b", "c", "d", k=2)
    assert fold(vote, without("a", "b")).tree == gate("all", "c", "d")
    none = fold(vote, without("a", "b", "c"))
    assert none.tree is None
    assert none.left_out[-1] == LeftOut("d", "“g” takes 2 of its causes, and this family has 1")


def test_one_of_a_vote_is_an_any_gate() -> None:
    assert fold(gate("at_least", "a", "b", k=1), without()).tree == gate("any", "a", "b")


def test_a_gate_with_one_input_becomes_that_input_but_the_top_stays() -> None:
    inner = gate("any", "a", "b", name="inner")
    assert fold(gate("any", inner, "c"), without("b", "c")).tree == gate("any", "a")


def test_a_repeated_event_under_an_any_gate_collapses_after_folding_too() -> None:
    inner = gate("any", "a", "b", name="inner")
    assert fold(gate("any", "a", inner, "a", "c"), without("b")).tree == gate("any", "a", "c")


def test_an_empty_tree_is_none() -> None:
    folded = fold(gate("any", "a"), without("a"))
    assert (folded.tree, folded.left_out) == (None, (LeftOut("a", WHY),))


def test_a_deep_tree_folds() -> None:
    node: Node = Event("e0")
    for i in range(1, 3001):
        node = Gate(f"g{i}", "", "any", (Event(f"e{i}"), node))
    assert isinstance(node, Gate)
    folded = fold(node, without("e3000"))
    assert folded.tree is not None and folded.tree.id == "g3000"
    assert len(event_ids(folded.tree)) == 3000
