"""The solver against every policy there is."""

from __future__ import annotations

from random import Random

import pytest

from generator.analysis.check_order import solve, solve_from
from generator.analysis.policy import expected_minutes
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import random_case


@pytest.mark.parametrize("hundred", range(5))
def test_the_solver_equals_the_best_of_all_policies(hundred: int) -> None:
    for number in range(100 * hundred, 100 * hundred + 100):
        case = random_case(number, causes=(1, 6), checks=(0, 6))
        solution = solve(case)
        least = least_minutes(case)
        assert solution.exact
        assert solution.expected_minutes == pytest.approx(least, abs=1e-9), number
        assert expected_minutes(solution.policy) == pytest.approx(least, abs=1e-9), number
        assert solution.lower_bound == pytest.approx(least, abs=1e-9), number


def test_six_causes_and_six_checks_equal_the_best_of_all_policies() -> None:
    for number in range(60):
        case = random_case(number + 9000, causes=(6, 6), checks=(6, 6))
        assert solve(case).expected_minutes == pytest.approx(least_minutes(case), abs=1e-9), number


def test_solving_from_the_middle_equals_the_best_of_all_policies_from_there() -> None:
    for number in range(200):
        case, rng = random_case(number, causes=(3, 6), checks=(1, 6)), Random(number)
        left = [h.id for h in case.hypotheses if rng.random() < 0.6] or [case.hypotheses[0].id]
        opened = case.machine.way_in(rng.sample(sorted(case.machine.parts), 1))
        least = least_minutes(case, left, set(opened))
        assert solve_from(case, left, opened).expected_minutes == pytest.approx(least, abs=1e-9)


def test_without_search_the_bound_stays_below_and_the_policy_above_the_best() -> None:
    for number in range(300):
        case = random_case(number + 5000, causes=(2, 6), checks=(0, 6))
        solution, least = solve(case, budget=0), least_minutes(case)
        assert solution.lower_bound <= least + 1e-9, number
        assert solution.expected_minutes >= least - 1e-9, number
