"""The solver against every policy there is."""

from __future__ import annotations

import pytest
from order_brute_force import least_minutes
from order_cases import random_case

from generator.analysis.check_order import expected_minutes, solve, solve_from

HUNDREDS = range(5)


@pytest.mark.parametrize("hundred", HUNDREDS)
def test_equals_the_best_of_all_policies(hundred: int) -> None:
    for number in range(100 * hundred, 100 * hundred + 100):
        case = random_case(number, causes=(1, 6), checks=(0, 5 + number % 2))
        solution = solve(case)
        assert solution.exact
        assert solution.expected_minutes == pytest.approx(least_minutes(case), abs=1e-9), number
        assert expected_minutes(solution.policy) == pytest.approx(solution.expected_minutes, abs=1e-9)
        assert solution.lower_bound == pytest.approx(solution.expected_minutes, abs=1e-9)
