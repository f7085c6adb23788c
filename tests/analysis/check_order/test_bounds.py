"""What is said to be out of reach is out of reach, and not by much."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import fmean

import pytest

from generator.analysis.check_order import Case, solve
from generator.analysis.check_order.bounds import Lower, PairTolls
from generator.analysis.check_order.cost import Board, board
from generator.analysis.check_order.dual_prices import Pair, Tolls
from generator.analysis.check_order.states import Move, State, States
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_program import program_minutes

NEAR = [bench_case(number, 6 + number % 12, 6 + number % 10) for number in range(24)]


def _met(states: States, state: State, moves: int) -> Iterator[tuple[State, Move]]:
    """States within so many moves of a state, each with all its moves."""
    for move in states.moves(state):
        yield state, move
        for after in states.then(move) if moves > 1 else ():
            yield from _met(states, after, moves - 1)


def _least(case: Case, bits: Board, state: State) -> float:
    """The least minutes from a state (times mass), by trying every policy."""
    left, parts = state
    ids = [h.id for bit, group in enumerate(bits.groups) if left >> bit & 1 for h in group]
    opened = {part for part, bit in bits.parts.items() if parts & bit}
    return least_minutes(case, ids, opened) * bits.mass[left]


def _set(bits: int) -> list[int]:
    return [bit for bit in range(bits.bit_length()) if bits >> bit & 1]


def _as_defined(tolls: Tolls, left: int, parts: int, idle_too: bool) -> float:
    """Tolls of all pairs left and endings from here, less claims on open parts by actions that still tell, or by all."""
    pairs = sum(p.toll for p in tolls.pairs if left >> p.one & left >> p.other & 1)
    endings = 0.0
    for h in _set(left):
        kept = {1 << o.part: o.kept for o in tolls.openings[h] if not parts >> o.part & 1}
        endings += min(own + sum(k for bit, k in kept.items() if a.parts & bit) for a, own in tolls.ender_minutes(h))
    spent = sum(
        claims[h]
        for (number, part), claims in tolls.claims().items()
        if parts >> part & 1 and (idle_too or tolls.actions[number].tells(left))
        for h in _set(left)
    )
    return pairs + endings - spent


@pytest.mark.parametrize("number", range(30))
def test_a_bound_is_tolls_and_endings_less_spent_claims_added_up_plainly(number: int) -> None:
    """What one remedy cures is exact: its minutes from here, times its mass."""
    case = random_case(number + 2500, causes=(3, 5), checks=(2, 5)) if number % 3 else bench_case(number, 6, 6)
    bits = board(case)
    states = States(bits)
    lower, tolls = Lower(states), Tolls(bits, [action for action, _ in states.steps(bits.all).actions])
    for state, move in dict.fromkeys(_met(states, states.start(), 2)):
        quick = move.cost + sum(_as_defined(tolls, leaf, move.opened, idle_too=True) for leaf in move.leaves)
        assert lower.quick(move) == pytest.approx(quick, abs=1e-9)
        for left, parts in (state, *states.then(move)):
            last = states.last(left)
            exact = last and bits.mass[left] * (last.minutes + bits.opening[last.parts & ~parts])
            plain = exact if exact is not None else _as_defined(tolls, left, parts, idle_too=False)
            assert lower.bound((left, parts)) == pytest.approx(plain, abs=1e-9)


def test_tolls_of_a_set_are_those_of_the_pairs_in_it() -> None:
    """By hand: 1 for the first and second, 2 for the first and third, 4 for the second and fourth."""

    class ByHand:
        size = 4
        pairs = (Pair(0, 1, [], [], 1.0), Pair(0, 2, [], [], 2.0), Pair(1, 3, [], [], 4.0))

    tolls = PairTolls(ByHand())
    assert [tolls[left] for left in range(16)] == [0, 0, 0, 1, 0, 2, 0, 3, 0, 0, 4, 5, 0, 2, 4, 7]


@pytest.mark.parametrize("number", range(80))
def test_no_bound_is_above_the_best_of_all_policies_from_any_state(number: int) -> None:
    case = random_case(number + 2000, causes=(3, 5), checks=(1, 5))
    bits = board(case)
    states = States(bits)
    lower, least = Lower(states), {}
    for state, move in dict.fromkeys(_met(states, states.start(), 3)):
        for met in (state, *states.then(move)):
            if met not in least:
                least[met] = _least(case, bits, met)
                assert lower.bound(met) <= least[met] + 1e-9
        assert lower.quick(move) <= move.cost + sum(least[s] for s in states.then(move)) + 1e-9


def test_the_bound_is_near_the_linear_program_that_it_stands_for() -> None:
    """The oracle is scipy's HiGHS: it solves the other side of the program, to its optimum."""
    reached = []
    for case in NEAR:
        states = States(board(case))
        bound, program = Lower(states).bound(states.start()), program_minutes(case)
        assert bound <= program + 1e-9
        assert program <= solve(case).expected_minutes + 1e-7
        reached.append(bound / program)
    assert fmean(reached) >= 0.97
    assert min(reached) >= 0.93


@pytest.mark.parametrize("number", range(40))
def test_the_linear_program_is_never_above_the_best_of_all_policies(number: int) -> None:
    case = random_case(number + 3000, causes=(2, 6), checks=(0, 6))
    assert program_minutes(case) <= least_minutes(case) + 1e-7
