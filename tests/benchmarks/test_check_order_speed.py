"""How long the order of checks takes. Run with `pytest -s`; figures are printed, none decides."""

from __future__ import annotations

from time import perf_counter

from tests.analysis.check_order.order_cases import bench_case

from generator.analysis.check_order import solve

TYPICAL = [(number, 12 + number % 9, 12 + number * 5 % 13) for number in range(16)]
LARGE = [(number, 30, 35) for number in range(6)]


def _timed(size: tuple[int, int, int]) -> float:
    case = bench_case(*size)
    start = perf_counter()
    found = solve(case)
    seconds = perf_counter() - start
    gap = found.expected_minutes / found.lower_bound - 1
    proof = "exact" if found.exact else f"within {gap:.1%}"
    print(f"{size[1]} causes, {size[2]} checks: {seconds:.3f} s, {found.states} states, {proof}")
    return seconds


def test_sixteen_typical_cases() -> None:
    print(f"\ntogether {sum(map(_timed, TYPICAL)):.2f} s")


def test_the_largest_real_cases() -> None:
    print(f"\ntogether {sum(map(_timed, LARGE)):.2f} s")
