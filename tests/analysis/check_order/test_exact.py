"""What the search promises from any state and below any limit, against every policy there is."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.cost import Board, board
from generator.analysis.check_order.exact import Search
from generator.analysis.check_order.states import State, States
from generator.analysis.machine import Machine, Remedy
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_hand_case import CASE
from tests.analysis.check_order.order_loose import Loose

NEAR = 1e-9


def searching(case: Case, budget: int = 10_000, bounds: type[Lower] = Lower) -> Search:
    return Search(bounds(States(board(case))), budget)


def _least(case: Case, bits: Board, state: State) -> float:
    """The least minutes from a state (times mass), by trying every policy."""
    left, parts = state
    ids = [h.id for bit, group in enumerate(bits.groups) if left >> bit & 1 for h in group]
    opened = {part for part, bit in bits.parts.items() if parts & bit}
    return least_minutes(case, ids, opened) * bits.mass[left]


@pytest.mark.parametrize(("number", "bounds"), product(range(30), (Lower, Loose)))
def test_below_the_limit_the_value_is_the_least_of_all_policies_and_else_a_bound_not_below_the_limit(
    number: int, bounds: type[Lower]
) -> None:
    case = random_case(number + 7000, causes=(2, 4), checks=(1, 4))
    bits = board(case)
    start = States(bits).start()
    least = _least(case, bits, start)
    for limit in (least * 0.3, least - 0.01, least, least + 0.01, least * 1.5 + 1, float("inf")):
        search = searching(case, bounds=bounds)
        value = search.value(start, limit)
        if limit > least + 0.001:
            assert value == pytest.approx(least, abs=NEAR)
        else:
            assert min(limit, least) - NEAR <= value <= least + NEAR
            assert value >= limit - NEAR


@pytest.mark.parametrize("number", range(30))
def test_each_state_that_is_solved_has_the_move_of_a_best_policy(number: int) -> None:
    """The move's cost and the least of what follows, by trying every policy, are the least of the state."""
    case = random_case(number + 8000, causes=(2, 4), checks=(1, 4))
    bits = board(case)
    search = searching(case, bounds=Loose)
    states = States(bits)
    assert search.run(float("inf"))
    assert (states.start() in search.solved) == (states.last(bits.all) is None)
    for state, move in search.solved.items():
        follows = sum(_least(case, bits, then) for then in states.then(move))
        assert move.cost + follows == pytest.approx(_least(case, bits, state), abs=NEAR)
        assert search.bound(state) == pytest.approx(_least(case, bits, state), abs=NEAR)


@pytest.mark.parametrize("number", range(20))
def test_the_search_ends_below_the_minutes_that_a_policy_is_known_to_reach(number: int) -> None:
    """Known to be the least, it still finds a policy as good; the minutes of none can be less."""
    case = random_case(number + 9500, causes=(2, 4), checks=(1, 4))
    least = least_minutes(case)
    for reached in (least, least + 3):
        search = searching(case)
        assert search.run(reached) is True
        start = States(board(case)).start()
        assert search.bound(start) == pytest.approx(least, abs=NEAR)
        assert start in search.solved or States(board(case)).last(start[0])


def test_the_hand_case_is_solved_in_the_states_that_it_has() -> None:
    """By hand: trial 2, then plate 2 and watch 1 for half, gear 10 for a fifth, lint 5 for three tenths: 7.

    Without bounds two states at the least are expanded: all three left, and lint and gear left.
    """
    search = searching(CASE, bounds=Loose)
    assert search.run(7)
    start = search._states.start()
    assert search.bound(start) == pytest.approx(7)
    assert search.solved[start].action.id == "trial"
    assert search.solved[0b110, 0].action.id == "watch"
    assert search.expanded >= 2


def _three_alike() -> Case:
    """Three causes, each with a remedy of its own, and a check that shows all three apart."""
    found = tuple(Hypothesis(i, (), 1, Remedy(i, minutes=20)) for i in "abc")
    return Case(found, (Check("look", 1, (), tuple("abc"), {"a": 0, "b": 1, "c": 2}),), Machine(), 0)


@pytest.mark.parametrize(("budget", "ends"), [(0, False), (1, True), (2, True)])
def test_a_state_is_expanded_only_within_the_budget(budget: int, ends: bool) -> None:
    """Look 1, then a remedy, 20: 21. With the bounds of the board the start alone is expanded: a remedy first is 20 and more."""
    search = searching(_three_alike(), budget)
    assert search.run(21) == ends
    assert search.expanded == min(budget, 1)
    assert search.solved.keys() == ({(0b111, 0)} if ends else set())


def test_what_was_solved_or_bounded_is_not_expanded_again() -> None:
    search = searching(CASE, bounds=Loose)
    start = search._states.start()
    value = search.value(start, 100)
    count = search.expanded
    assert search.value(start, 100) == search.value(start, 7.5) == value
    assert search.expanded == count
    refused = searching(CASE, bounds=Loose)
    bound = refused.value(start, 6)
    count = refused.expanded
    assert bound >= 6
    assert refused.value(start, 5.5) == bound and refused.expanded == count
    assert start not in refused.solved


def test_nothing_is_expanded_where_the_bound_is_as_high_as_the_limit() -> None:
    search = searching(_three_alike(), budget=0)
    start = search._states.start()
    bound = search.bound(start)
    assert 20 <= bound <= 21
    assert search.value(start, bound) == bound
    assert search.expanded == 0


def test_of_a_state_not_below_the_limit_is_kept_what_its_moves_take_at_the_least() -> None:
    """By hand: each remedy first takes 20 and more, the look 1 and 20: far above a limit of 5, and so is the bound."""
    search = searching(_three_alike(), bounds=Loose)
    start = search._states.start()
    assert search.value(start, 5) == 20
    assert search.bound(start) == 20
    assert start not in search.solved


class Watched(Search):
    """Remembers below which limit every state is expanded."""

    limits: tuple[float, ...] = ()

    def _expand(self, state: State, limit: float) -> float:
        self.limits += (limit,)
        return super()._expand(state, limit)


def test_no_state_is_given_more_than_is_left_of_the_limit_of_the_state_before_it() -> None:
    for number in range(10):
        case = random_case(number + 9500, causes=(3, 5), checks=(1, 5))
        least = least_minutes(case)
        search = Watched(Loose(States(board(case))), 10_000)
        search.run(least)
        assert all(limit <= least * (1 + 1e-8) + 1e-8 for limit in search.limits)


def test_a_policy_of_millions_of_minutes_is_found_though_it_is_known_what_it_reaches() -> None:
    """By hand: look a million, then a remedy, 20: 21. At that size a fixed margin would be lost in rounding."""
    found = tuple(Hypothesis(i, (), 1, Remedy(i, minutes=20e6)) for i in "abc")
    look = Check("look", 1e6, (), tuple("abc"), {"a": 0, "b": 1, "c": 2})
    search = searching(Case(found, (look,), Machine(), 0), bounds=Loose)
    assert search.run(21e6)
    assert search.solved[search._states.start()].action.id == "look"


def test_where_one_remedy_is_left_nothing_is_expanded_even_without_a_budget() -> None:
    search = searching(replace(CASE, hypotheses=CASE.hypotheses[:1], checks=()), budget=0)
    assert search.run(100)
    assert (search.expanded, search.solved) == (0, {})
    assert search.bound(search._states.start()) == 3


def test_moves_are_ranked_by_their_cost_and_what_must_follow_then_by_cost_then_by_id() -> None:
    """Without bounds a move counts what it costs, and 20 times the mass where a remedy must follow.

    The look shows both apart: 10 and 20. Each remedy: 20, and then half of 20. As good, and the look is cheaper.
    """
    found = tuple(Hypothesis(i, (), 1, Remedy(i, minutes=20)) for i in "ba")
    look = Check("look", 10, (), ("one", "other"), {"a": 0, "b": 1})
    search = searching(Case(found, (look,), Machine(), 0), bounds=Loose)
    moves = search._ranked(search._states.moves(search._states.start()))
    assert [(total, cost, id) for total, cost, id, _, _ in moves] == [(30, 10, "look"), (30, 20, "a"), (30, 20, "b")]


def test_a_check_and_a_remedy_of_one_id_and_as_good_are_never_compared_further() -> None:
    """Remedy and trial 5 minutes each, both named same, of two causes: nothing else tells them apart without bounds."""
    a, b, c = (Hypothesis(h, (), 1, Remedy(r, minutes=m)) for h, r, m in (("a", "same", 5), ("b", "rb", 9), ("c", "rc", 50)))
    trial = Check("same", 5, (), ("cured", "not"), {"a": 1, "b": 0, "c": 1}, frozenset({0}))
    case = Case((a, b, c), (trial,), Machine(), 0)
    search = searching(case, bounds=Loose)
    assert search.run(100)
    assert search.bound(search._states.start()) == pytest.approx(least_minutes(case))


def test_what_a_policy_is_known_to_reach_spares_the_search_what_a_limit_just_above_it_spares() -> None:
    run = limited = unlimited = 0
    for number in range(8):
        case = bench_case(number, 7, 6)
        free = searching(case)
        assert free.run(float("inf"))
        least = free.bound(free._states.start())
        known, below = searching(case), searching(case)
        known.run(least)
        below.value(below._states.start(), least * (1 + 1e-8))
        run, limited, unlimited = run + known.expanded, limited + below.expanded, unlimited + free.expanded
    assert run == limited < unlimited
