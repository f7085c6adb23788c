"""How long it takes to look for missing checks. Prints; passes whatever the time."""

from time import perf_counter

from generator.analysis.check_order import solve
from generator.analysis.coverage import missing_check, tried_in_turn
from tests.analysis.check_order.order_cases import bench_case


def test_missing_checks_of_large_cases() -> None:
    for causes, checks in ((12, 12), (20, 20), (30, 30)):
        case = bench_case(1, causes, checks)
        solution = solve(case)
        start = perf_counter()
        turns = tried_in_turn(case, solution.policy)
        for alike in (case.hypotheses, *turns):
            missing_check(case, solution, [h.id for h in alike])
        spent = perf_counter() - start
        print(f"{causes} causes, {checks} checks, {len(turns)} sets tried in turn: {spent * 1000:.0f} ms")
