"""Tolls, claims and endings: always within the program that they stand for, and worth nearly as much as its optimum."""

from __future__ import annotations

import itertools
from statistics import fmean

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.check_order.cost import Action, Board, Mass, board
from generator.analysis.check_order.dual_prices import (
    CHEAPEST,
    DEAREST,
    NO_SLACK,
    ROUNDS,
    Opening,
    Pair,
    Tolls,
    _prices,
    _step,
)
from generator.analysis.machine import Machine, MachinePart, Remedy
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_hand_case import CASE
from tests.analysis.check_order.order_program import program_minutes

NEAR = 1e-9
CASES = [*(bench_case(number, 6 + number % 4, 6 + number % 5) for number in range(8)), *(random_case(n + 70, (3, 6), (2, 6)) for n in range(12))]


def tolls_of(case: Case) -> tuple[Board, Tolls]:
    bits = board(case)
    return bits, Tolls(bits, bits.actions)


def charged(tolls: Tolls) -> list[float]:
    """What the pairs charge every row: the one its load, the other the rest of the toll."""
    rows = [0.0] * (len(tolls.actions) * tolls.size)
    for pair in tolls.pairs:
        for (one, other), load in zip(pair.rows, pair.loads, strict=True):
            rows[one] += load
            rows[other] += pair.toll - load
    return rows


def claimed(tolls: Tolls) -> list[float]:
    """What every row may draw on the openings of its parts."""
    rows = [0.0] * (len(tolls.actions) * tolls.size)
    for (number, _), by in tolls.claims().items():
        for hypothesis, claim in enumerate(by):
            rows[number * tolls.size + hypothesis] += claim
    return rows


def endings(tolls: Tolls) -> list[float]:
    """The least that tolls leave of an action that ends a hypothesis, with what is kept of the openings that it needs."""
    found = []
    for hypothesis in range(tolls.size):
        kept = {1 << opening.part: opening.kept for opening in tolls.openings[hypothesis]}
        found.append(min(own + sum(k for bit, k in kept.items() if a.parts & bit) for a, own in tolls.ender_minutes(hypothesis)))
    return found


@pytest.mark.parametrize("number", range(len(CASES)))
def test_no_row_is_charged_more_than_its_minutes_and_its_claims(number: int) -> None:
    bits, tolls = tolls_of(CASES[number])
    taken, drawn, closed = charged(tolls), claimed(tolls), endings(tolls)
    for row, taken_off in enumerate(taken):
        action, hypothesis = tolls.actions[row // tolls.size], row % tolls.size
        minutes = action.minutes * bits.mass.weights[hypothesis]
        assert drawn[row] >= 0
        assert taken_off <= minutes + drawn[row] + NEAR or action.ends >> hypothesis & 1
        assert tolls.action(row) is action
    for hypothesis in range(tolls.size):
        told = dict(tolls.ender_minutes(hypothesis))
        assert set(told) == {a for a in tolls.actions if a.ends >> hypothesis & 1}
        for action, left in told.items():
            row = tolls.actions.index(action) * tolls.size + hypothesis
            assert left == pytest.approx(action.minutes * bits.mass.weights[hypothesis] - taken[row], abs=NEAR)
            kept = sum(o.kept for o in tolls.openings[hypothesis] if action.parts >> o.part & 1)
            assert left + kept >= closed[hypothesis] - NEAR


@pytest.mark.parametrize("number", range(len(CASES)))
def test_what_is_kept_of_an_opening_and_all_claims_on_it_are_its_minutes(number: int) -> None:
    bits, tolls = tolls_of(CASES[number])
    for hypothesis, openings in enumerate(tolls.openings):
        assert [opening.part for opening in openings] == list(range(len(bits.opening.weights)))
        for opening in openings:
            minutes = bits.opening.weights[opening.part] * bits.mass.weights[hypothesis]
            assert opening.kept + sum(opening.claims) == pytest.approx(minutes, abs=NEAR)
            assert opening.kept >= -NEAR and min(opening.claims, default=0) >= 0
            needed = {n * tolls.size + hypothesis for n, a in enumerate(tolls.actions) if a.parts >> opening.part & 1}
            ending = {row for row in needed if tolls.action(row).ends >> hypothesis & 1}
            assert (set(opening.enders), set(opening.users)) == (ending, needed - ending)


@pytest.mark.parametrize("number", range(len(CASES)))
def test_every_pair_is_charged_once_for_every_action_that_parts_it(number: int) -> None:
    _, tolls = tolls_of(CASES[number])
    assert len({(pair.one, pair.other) for pair in tolls.pairs}) == len(tolls.pairs)
    for pair in tolls.pairs:
        assert 0 <= pair.one < pair.other < tolls.size
        assert pair.toll >= 0
        assert all(-NEAR <= load <= pair.toll + NEAR for load in pair.loads)
        parting = [n for n, a in enumerate(tolls.actions) if _parts(a, pair.one, pair.other)]
        assert pair.rows == [(n * tolls.size + pair.one, n * tolls.size + pair.other) for n in parting]


def _parts(action: Action, one: int, other: int) -> bool:
    return not any(c >> one & c >> other & 1 for c in action.classes)


def worth(tolls: Tolls) -> float:
    return sum(pair.toll for pair in tolls.pairs) + sum(endings(tolls))


def test_tolls_and_endings_are_worth_nearly_the_optimum_of_the_program_and_never_more() -> None:
    """The oracle is scipy's HiGHS: it solves the other side of the program."""
    reached = []
    for case in CASES:
        _, tolls = tolls_of(case)
        program = program_minutes(case)
        assert worth(tolls) <= program + NEAR * max(1, program)
        reached.append(worth(tolls) / program if program else 1.0)
    assert fmean(reached) >= 0.97
    assert min(reached) >= 0.93


def test_a_pair_that_only_one_check_parts_is_charged_its_minutes() -> None:
    """By hand: look 1 and a remedy, 20: 21. The toll is the look's minute, each ending 20 times a half."""
    found = tuple(Hypothesis(i, (), 1, Remedy(i, minutes=20)) for i in "ab")
    look = Check("look", 1, (), ("one", "other"), {"a": 0, "b": 1})
    _, tolls = tolls_of(Case(found, (look,), Machine(), 0))
    (pair,) = tolls.pairs
    assert pair.toll == pytest.approx(1, abs=0.01)
    assert endings(tolls) == pytest.approx([10, 10], abs=0.01)
    assert tolls.claims() == {}


def test_a_check_may_claim_the_opening_that_a_remedy_shares_with_it() -> None:
    """By hand: cover 4, look 1 under it, then a's remedy under it or b's, 20 each: 25, and no policy takes less.

    For b the cover is opened for the look alone, so the look may be charged all of it: toll and endings come to 25.
    """
    a, b = Hypothesis("a", (), 1, Remedy("a", reach=("cover",), minutes=20)), Hypothesis("b", (), 1, Remedy("b", minutes=20))
    look = Check("look", 1, ("cover",), ("one", "other"), {"a": 0, "b": 1})
    _, tolls = tolls_of(Case((a, b), (look,), Machine({"cover": MachinePart("cover", (), 2, 2)}), 0))
    assert worth(tolls) == pytest.approx(25, abs=0.2)
    assert worth(tolls) <= 25 + NEAR
    ((key, claims),) = tolls.claims().items()
    assert (tolls.actions[key[0]].id, key[1]) == ("look", 0)
    assert claims[1] == pytest.approx(2, abs=0.2)


def test_a_pair_that_an_action_parts_for_nothing_is_not_charged() -> None:
    """Trial, at no minutes, parts dull from lint and gear; watch is left to part these two."""
    free = Check("trial", 0, (), CASE.checks[1].outcomes, CASE.checks[1].sees, frozenset({0}))
    _, tolls = tolls_of(Case(CASE.hypotheses, (CASE.checks[0], free), CASE.machine, 2))
    assert [(pair.one, pair.other) for pair in tolls.pairs] == [(1, 2)]


@pytest.mark.parametrize(
    ("slacks", "price", "step"),
    [
        ([2.0], 0.5, 1.5),
        ([2.0], 0.05, 1.9),
        ([2.0], 3.0, -1.0),
        ([2.0, 4.0], 0.5, 1.5),
        ([4.0, 2.0], 1.0, 0.6),
        ([1.0, 1.0], 0.5, 0.0),
        ([1.0, NO_SLACK / 2], 0.5, 0.0),
    ],
)
def test_a_step_of_the_ascent_by_hand(slacks: list[float], price: float, step: float) -> None:
    """Newton's step to the most of s + price x sum log(slack - s) is (1 - price x sum 1/slack) / (price x sum 1/slack^2),
    here with price x sum 1/slack, its value at the most, put for the price below: sum 1/slack x (1 - price x sum 1/slack) / sum 1/slack^2.

    One slack s: s - price, and 0.95 s at the most. Of 2 and 4: sums 3/4 and 5/16.
    """
    assert _step(slacks, price) == pytest.approx(step)


def test_the_barrier_falls_evenly_from_its_first_price_to_its_last() -> None:
    prices = _prices()
    assert len(prices) == ROUNDS
    assert (prices[0], prices[-1]) == pytest.approx((DEAREST, CHEAPEST))
    assert [after / before for before, after in itertools.pairwise(prices)] == pytest.approx([prices[1] / prices[0]] * (ROUNDS - 1))


def _bare() -> Tolls:
    """Tolls of one cause, one remedy and one check that tells nothing, to be set by hand."""
    remedy, check = Action("r", True, 8, 1, 1, ()), Action("c", False, 6, 1, 0, (1,))
    return Tolls(Board(((),), {"cover": 1}, Mass((4.0,)), Mass((1.0,)), (remedy, check)), (remedy, check))


def test_the_spare_of_an_opening_gives_way_as_all_that_it_is_taken_from_do() -> None:
    """By hand: kept 2 and an ending's slack 2, one in two each: 1. With another ending of 1: 1 / (1/2 + 1/2 + 1). Used up: none."""
    tolls = _bare()
    tolls._slack = [2.0, 5.0, 1.0]
    assert tolls._spare(Opening(0, 2.0, [0], [1], [0.0])) == pytest.approx(1)
    assert tolls._spare(Opening(0, 2.0, [0, 2], [1], [0.0])) == pytest.approx(0.5)
    assert tolls._spare(Opening(0, 0.0, [0], [1], [0.0])) == 0
    tolls._slack[0] = 0.0
    assert tolls._spare(Opening(0, 2.0, [0], [1], [0.0])) == 0
    assert tolls._spare(Opening(0, 2.0, [], [1], [0.0])) == 2


@pytest.mark.parametrize(("slack", "claim", "after"), [(0.0, 0.0, 0.5), (1.0, 0.0, 0.0), (5.0, 0.25, 0.0), (2.0, 3.0, 2.5)])
def test_a_claimant_and_the_spare_meet_half_way_and_no_claim_falls_below_nothing(slack: float, claim: float, after: float) -> None:
    """By hand, the spare 1: a slack of 0 takes half of it, of 1 nothing; of 5 and 2 gives half of what is over, 2 and 0.5, as far as it has."""
    tolls = _bare()
    tolls._slack = [2.0, slack]
    opening = Opening(0, 2.0, [0], [1], [claim])
    tolls._share(opening)
    step = after - claim
    assert opening.claims == pytest.approx([after])
    assert opening.kept == pytest.approx(2 - step)
    assert tolls._slack == pytest.approx([2 - step, slack + step])


@pytest.mark.parametrize(
    ("slack", "toll", "load", "price", "want", "loads", "left"),
    [
        ([3.0, 1.0], 0.0, 0.0, 0.5, 3.0, 2.5, [0.5, 0.5]),
        ([5.0, 1.0], 0.0, 0.0, 1.5, 3.0, 3.0, [2.0, 1.0]),
        ([1.0, 5.0], 0.0, 0.0, 1.5, 3.0, 0.0, [1.0, 2.0]),
        ([0.5, 0.5], 2.0, 1.0, 2.0, 0.0, 0.0, [1.5, 1.5]),
        ([1.0, 3.0], 2.0, 2.0, 1.0, 4.0, 2.0, [1.0, 1.0]),
    ],
)
def test_a_toll_is_raised_or_lowered_and_its_two_rows_left_as_even_as_may_be(
    slack: list[float], toll: float, load: float, price: float, want: float, loads: float, left: list[float]
) -> None:
    """By hand: one action parts them, its room the slack of both rows; the step is the room less twice the price (see above).

    3 and 1, price 1/2: up by 3, both rows left at 1/2, of which the one, with 3, has paid 2.5. 5 and 1, price 3/2:
    up by 3, all of it from the one. 1 and 5: all from the other. Half each of a toll of 2, price 2: down by 3, as
    far as nothing. 1 and 3 with a toll of 2 all paid by the one: up by 2, all from the other.
    """
    tolls = _bare()
    tolls._slack = list(slack)
    pair = Pair(0, 1, [(0, 1)], [load], toll)
    tolls._charge(pair, price)
    assert pair.toll == pytest.approx(want)
    assert pair.loads == pytest.approx([loads])
    assert tolls._slack == pytest.approx(left)


def test_an_ending_takes_of_all_rows_that_end_it() -> None:
    """By hand: slacks 2 and 4, price 1: 0.6 more; then each has that much less."""
    tolls = _bare()
    tolls._slack, tolls._enders, tolls._endings = [2.0, 4.0], [[0, 1]], [7.0]
    tolls._end(0, 1.0)
    assert tolls._endings == pytest.approx([7.6])
    assert tolls._slack == pytest.approx([1.4, 3.4])
