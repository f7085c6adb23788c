"""The exact search under doubt against brute force, and bounds that are never above it."""

from __future__ import annotations

from functools import cache

import pytest

from generator.analysis.check_order import solve
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.exact import Search
from generator.analysis.doubt.grow import Grower
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.order import order
from generator.analysis.doubt.relaxed import certain_bound
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.rules import record_order
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.analysis.policy import expected_minutes
from tests.analysis.check_order.order_cases import random_case
from tests.analysis.doubt.doubt_brute_force import least_minutes
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt
from tests.analysis.doubt.doubt_habit import likeliest_first

PLENTY = 100_000
CASES = range(360)


@cache
def least(number: int) -> float:
    return least_minutes(small_doubt(number))


@pytest.mark.parametrize("block", range(12))
def test_the_search_equals_brute_force_over_all_policies(block: int) -> None:
    for number in CASES[block::12]:
        found = order(small_doubt(number), PLENTY)
        assert found.exact
        assert found.expected_minutes == pytest.approx(least(number), abs=1e-8), number


def test_no_bound_is_above_brute_force() -> None:
    tight = 0
    for number in CASES:
        doubt = small_doubt(number)
        table = Table(doubt)
        known, certain = KnownCause(table).bound(start(table)), certain_bound(doubt)
        assert known <= least(number) + 1e-9, number
        assert certain <= least(number) + 1e-9, number
        tight += max(known, certain) > 0.5 * least(number)
    assert tight > len(CASES) / 2


def test_no_rule_beats_the_best_policy() -> None:
    for number in CASES:
        table = Table(small_doubt(number))
        for rule in (next_move, record_order, likeliest_first):
            minutes = expected_minutes(Grower(table, rule).grow(start(table)))
            assert minutes >= least(number) - 1e-9, (number, rule.__name__)


def test_without_any_doubt_the_order_is_that_of_the_certain_world() -> None:
    """Trust 1, no unlisted cause, remedies that always cure, nothing dear, and no way out."""
    for number in range(150):
        case = random_case(number, (1, 5), (0, 4))
        certain = solve(case)
        doubtless = order(plain(case, 1.0, unlisted=0.0, cures=1.0, come_back_minutes=1e6), PLENTY)
        assert certain.exact and doubtless.exact
        if any(check.cured for check in case.checks):
            # a trial may stand for the last remedy, which the certain order never allows
            assert doubtless.expected_minutes <= certain.expected_minutes + 1e-8, number
        else:
            assert doubtless.expected_minutes == pytest.approx(certain.expected_minutes, abs=1e-8), number


def test_a_search_that_is_given_up_says_so_and_its_bound_still_holds() -> None:
    for number in CASES:
        found = order(small_doubt(number), 2)
        assert found.lower_bound <= least(number) + 1e-9
        if not found.exact:
            assert found.expected_minutes >= least(number) - 0.5


@pytest.mark.parametrize(("rule", "at_most"), [("next step", 1.03), ("roll-out", 1.002)])
def test_the_rules_come_near_the_best_policy(rule: str, at_most: float) -> None:
    """Over all the cases together: figures that a worse formula would not reach."""
    best = sum(least(number) for number in CASES)
    assert best - 1e-6 <= sum(_ruled(number, rule) for number in CASES) < at_most * best


def test_the_roll_out_comes_near_the_best_policy_of_bench_cases() -> None:
    best = ruled = 0.0
    for number in range(5):
        table = Table(bench_doubt(number, 5, 4))
        search = Search(table, PLENTY)
        assert search.run(start(table))
        best += search.least(start(table))[0]
        ruled += expected_minutes(Grower(table, Rollout(table).move).grow(start(table)))
    assert best <= ruled < 1.03 * best


def _ruled(number: int, rule: str) -> float:
    table = Table(small_doubt(number))
    move = next_move if rule == "next step" else Rollout(table).move
    return expected_minutes(Grower(table, move).grow(start(table)))


def test_the_search_expands_no_more_than_its_budget() -> None:
    table = Table(small_doubt(5))
    search = Search(table, 3)
    search.run(start(table))
    assert search.expanded <= 3
