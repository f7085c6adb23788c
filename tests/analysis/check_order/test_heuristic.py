"""The policy without search, against its own definition: the least of all moves, sorted plainly and never remembered."""

from __future__ import annotations

from itertools import product

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.cost import Board, board
from generator.analysis.check_order.heuristic import LOOK, Rollout
from generator.analysis.check_order.states import Move, State, States
from generator.analysis.machine import Machine, Remedy
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import random_case
from tests.analysis.check_order.order_hand_case import CASE
from tests.analysis.check_order.order_loose import Loose

BOUNDS = (Lower, Loose)


def rolled(case: Case, bounds: type[Lower] = Lower) -> tuple[Rollout, Lower, State]:
    lower = bounds(States(board(case)))
    return Rollout(lower), lower, lower.states.start()


def _score(lower: Lower, move: Move) -> float:
    return move.cost + sum(lower.bound(then) for then in lower.states.then(move))


def _sorted(lower: Lower, state: State) -> list[Move]:
    return sorted(lower.states.moves(state), key=lambda m: (_score(lower, m), m.cost, m.action.id))


def _greedy(lower: Lower, state: State) -> float:
    if lower.states.last(state[0]):
        return lower.bound(state)
    first = _sorted(lower, state)[0]
    return first.cost + sum(_greedy(lower, then) for then in lower.states.then(first))


def _best(lower: Lower, state: State) -> float:
    if lower.states.last(state[0]):
        return lower.bound(state)
    few = _sorted(lower, state)[:LOOK]
    move = min(few, key=lambda m: m.cost + sum(_greedy(lower, then) for then in lower.states.then(m)))
    return move.cost + sum(_best(lower, then) for then in lower.states.then(move))


CASES = [random_case(number + 400, causes=(2, 5), checks=(1, 6)) for number in range(40)]


@pytest.mark.parametrize(("number", "bounds"), product(range(len(CASES)), BOUNDS))
def test_the_first_moves_are_those_of_the_least_cost_and_bounds_of_what_follows(number: int, bounds: type[Lower]) -> None:
    rollout, lower, start = rolled(CASES[number], bounds)
    for state in (start, *(then for move in lower.states.moves(start) for then in lower.states.then(move))):
        every = [_score(lower, move) for move in _sorted(lower, state)]
        for count in (1, 2, 4):
            assert [_score(lower, m) for m in rollout._first(state, count)] == pytest.approx(every[:count])


@pytest.mark.parametrize(("number", "bounds"), product(range(len(CASES)), BOUNDS))
def test_the_first_move_is_always_made_or_the_best_of_a_few_each_followed_so(number: int, bounds: type[Lower]) -> None:
    rollout, lower, start = rolled(CASES[number], bounds)
    assert rollout.greedy(start) == pytest.approx(_greedy(lower, start))
    assert rollout.best(start)[0] == pytest.approx(_best(lower, start))
    assert rollout.best(start) is rollout.best(start)


@pytest.mark.parametrize(("number", "bounds"), product(range(len(CASES)), BOUNDS))
def test_no_policy_is_better_than_the_best_and_rolling_out_never_makes_one_worse(number: int, bounds: type[Lower]) -> None:
    """Improving a policy one step at a time (Howard, Dynamic Programming and Markov Processes, 1960)."""
    rollout, _, start = rolled(CASES[number], bounds)
    assert least_minutes(CASES[number]) - 1e-9 <= rollout.best(start)[0] <= rollout.greedy(start) + 1e-9


def test_the_hand_case_by_hand() -> None:
    """Without bounds a step counts its cost, and a last remedy: trial 2; needle 3; watch 3 and the gear, 0.2 x 10; clean 7; gear 12.

    The first always made: trial 2, then for half of the jobs watch 3, then gear, 0.2 x 10, or clean, 0.3 x 5: 7.
    """
    rollout, _, start = rolled(CASE, Loose)
    first = rollout._first(start, 5)
    assert [move.action.id for move in first] == ["trial", "renew-needle", "watch", "clean", "renew-gear"]
    assert rollout.greedy(start) == pytest.approx(7)
    minutes, move = rollout.best(start)
    assert minutes == pytest.approx(7)
    assert move is not None and move.action.id == "trial"


def test_where_one_remedy_is_left_there_is_no_move_to_make() -> None:
    rollout, _, start = rolled(Case(CASE.hypotheses[:1], (), Machine(), 2))
    assert rollout.greedy(start) == 3
    assert rollout.best(start) == (3, None)


def _alike(checks: tuple[Check, ...] = (), **minutes: float) -> Case:
    """Causes as likely as each other, each with a remedy of its own."""
    return Case(tuple(Hypothesis(i, (), 1, Remedy(i, minutes=m)) for i, m in minutes.items()), checks, Machine(), 0)


def _ids(board: Board, moves: list[Move]) -> list[str]:
    return [f"{m.action.id}{'' if m.action.is_remedy else '?'}" for m in moves]


def test_of_moves_as_good_the_cheaper_comes_first_then_the_one_first_by_id() -> None:
    """Of two at 20, a remedy first is 20 and then half of 20; a look of 10 is 10 and 20: all 30."""
    look = Check("look", 10, (), ("one", "other"), {"a": 0, "b": 1})
    case = _alike((look,), b=20, a=20)
    rollout, _, start = rolled(case, Loose)
    for count in (1, 2, 3):
        assert _ids(board(case), rollout._first(start, count)) == ["look?", "a", "b"][:count]


def test_a_check_and_a_remedy_of_one_id_and_as_good_are_never_compared_further() -> None:
    """Remedy and trial, 5 minutes each and both named a, of three causes: nothing else tells them apart without bounds."""
    trial = Check("a", 5, (), ("cured", "not"), {"a": 1, "b": 0, "c": 1}, frozenset({0}))
    case = _alike((trial,), a=5, b=9, c=50)
    rollout, _, start = rolled(case, Loose)
    assert sorted(_ids(board(case), rollout._first(start, 2))) == ["a", "a?"]
    assert rollout.best(start)[0] >= least_minutes(case) - 1e-9


def test_of_the_few_first_moves_the_one_is_made_that_is_best_when_followed_to_the_end() -> None:
    """Look tells a and b from c and d, peek a and c from b and d, 2 minutes each; trial, 1, cures a; a remedy takes 9.

    Without bounds the trial comes first, then look and, for c and d, peek: 1 + 0.99 x 2 + 0.66 x 2 + 0.99 x 9.
    Followed to the end the look is better: 2; of a and b remedy b, 0.34 x 9, then a, 0.01 x 9; of c and d peek, 0.66 x (2 + 9).
    """
    weights = {"a": 0.01, "b": 0.33, "c": 0.33, "d": 0.33}
    found = tuple(Hypothesis(i, (), w, Remedy(i, minutes=9)) for i, w in weights.items())
    trial = Check("trial", 1, (), ("cured", "not"), {"a": 0, "b": 1, "c": 1, "d": 1}, frozenset({0}))
    look = Check("look", 2, (), ("one", "other"), {"a": 0, "b": 0, "c": 1, "d": 1})
    peek = Check("peek", 2, (), ("one", "other"), {"a": 0, "b": 1, "c": 0, "d": 1})
    rollout, _, start = rolled(Case(found, (trial, look, peek), Machine(), 0), Loose)
    assert [move.action.id for move in rollout._first(start, 3)] == ["trial", "look", "peek"]
    assert rollout.greedy(start) == pytest.approx(13.21)
    minutes, move = rollout.best(start)
    assert minutes == pytest.approx(12.41)
    assert move is not None and move.action.id in ("look", "peek")
