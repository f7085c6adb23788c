"""What is promised when the budget runs out."""

from __future__ import annotations

from statistics import fmean

import pytest

from generator.analysis.check_order import Solution, solve
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_plain import ratio_order, record_order

MID_SIZE = [(number, 8 + number % 6, 8 + number % 9) for number in range(200)]


@pytest.fixture(scope="module")
def least() -> list[float]:
    solutions = [solve(bench_case(*size), budget=20_000) for size in MID_SIZE]
    assert all(solution.exact for solution in solutions)
    return [solution.expected_minutes for solution in solutions]


@pytest.fixture(scope="module")
def unsearched() -> list[Solution]:
    return [solve(bench_case(*size), budget=0) for size in MID_SIZE]


def test_without_search_the_policy_is_within_one_percent_on_average(
    least: list[float], unsearched: list[Solution]
) -> None:
    assert fmean(u.expected_minutes / best for u, best in zip(unsearched, least)) <= 1.01
    assert not any(u.exact for u in unsearched)


def test_without_search_the_bound_is_below_and_the_policy_above_the_best(
    least: list[float], unsearched: list[Solution]
) -> None:
    for solution, best in zip(unsearched, least):
        assert solution.states == 0
        assert solution.lower_bound <= best + 1e-9
        assert solution.expected_minutes >= best - 1e-9


def test_a_bound_without_search_is_within_five_percent_of_the_best_on_average(
    least: list[float], unsearched: list[Solution]
) -> None:
    assert fmean(u.lower_bound / best for u, best in zip(unsearched, least)) >= 0.95


def test_without_search_no_plain_rule_does_better() -> None:
    for number in range(300):
        case = random_case(number, causes=(2, 9), checks=(0, 9))
        solution = solve(case, budget=0)
        plain = min(record_order(case), ratio_order(case))
        assert solution.expected_minutes <= plain + 1e-9, number


@pytest.mark.parametrize("budget", [5, 20])
def test_a_search_cut_short_never_claims_more_than_is_true(least: list[float], budget: int) -> None:
    for size, best in list(zip(MID_SIZE, least))[::4]:
        solution = solve(bench_case(*size), budget)
        assert solution.states <= budget
        assert solution.lower_bound <= best + 1e-9
        assert solution.expected_minutes >= best - 1e-9
        assert not solution.exact or solution.expected_minutes == pytest.approx(best, abs=1e-9)
