"""What is promised when the budget runs out."""

from __future__ import annotations

from statistics import fmean

import pytest
from order_cases import bench_case

from generator.analysis.check_order import expected_minutes, solve

MID_SIZE = [(number, 8 + number % 6, 8 + number % 9) for number in range(200)]


@pytest.fixture(scope="module")
def least() -> list[float]:
    solutions = [solve(bench_case(*size), budget=20_000) for size in MID_SIZE]
    assert all(solution.exact for solution in solutions)
    return [solution.expected_minutes for solution in solutions]


@pytest.mark.parametrize("budget", [0, 5, 20])
def test_a_cut_search_never_claims_a_bound_above_the_best(least: list[float], budget: int) -> None:
    for size, best in zip(MID_SIZE, least):
        solution = solve(bench_case(*size), budget)
        assert solution.states <= budget
        assert solution.lower_bound <= best + 1e-9
        assert solution.expected_minutes >= best - 1e-9
        assert solution.expected_minutes == expected_minutes(solution.policy)
        assert not solution.exact or solution.expected_minutes == pytest.approx(best, abs=1e-9)


def test_without_search_the_policy_is_within_five_percent_on_average(least: list[float]) -> None:
    found = [solve(bench_case(*size), budget=0) for size in MID_SIZE]
    assert fmean(f.expected_minutes / best for f, best in zip(found, least)) <= 1.05
    assert not any(f.exact for f in found)


def test_a_bound_without_search_is_worth_having(least: list[float]) -> None:
    found = [solve(bench_case(*size), budget=0).lower_bound for size in MID_SIZE]
    assert fmean(bound / best for bound, best in zip(found, least)) >= 0.75
