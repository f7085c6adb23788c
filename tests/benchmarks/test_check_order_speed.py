"""How long the order of checks takes. Run with `pytest -s`; figures are printed, none decides."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from time import process_time

from generator.analysis.check_order import Case, Solution, solve
from generator.bench import Bench
from generator.library import Library
from generator.store import load_kept
from tests.analysis.check_order.order_cases import bench_case

CONTENT = Path(__file__).parents[2] / "content"
TYPICAL = [(number, 12 + number % 9, 12 + number * 5 % 13) for number in range(16)]
LARGE = [(number, 30, 35) for number in range(6)]
HUGE = [(number, 60, 60) for number in range(3)]


@dataclass(frozen=True, slots=True)
class Timed:
    """One case, solved without a cache."""

    seconds: float
    "Of one core."
    name: str
    case: Case
    solution: Solution

    @property
    def gap(self) -> float:
        """Part of the bound by which the policy may be too dear."""
        return self.solution.expected_minutes / self.solution.lower_bound - 1

    def __str__(self) -> str:
        size = f"{len(self.case.hypotheses)} causes, {len(self.case.checks)} checks"
        proof = "exact" if self.solution.exact else f"within {self.gap:.1%}"
        return f"{self.seconds:7.3f} s  {self.solution.states:5} states  {proof}  {self.name} ({size})"


def _timed(name: str, case: Case) -> Timed:
    start = process_time()
    solution = solve(case)
    return Timed(process_time() - start, name, case, solution)


def _report(cases: Iterable[tuple[str, Case]]) -> None:
    found = sorted((_timed(*named) for named in cases), key=lambda t: (-t.seconds, t.name))
    print("", *found, sep="\n")
    exact = sum(t.solution.exact for t in found)
    seconds, worst = sum(t.seconds for t in found), max(t.gap for t in found)
    print(f"{len(found)} cases, {exact} exact, worst gap {worst:.1%}; together {seconds:.2f} s of one core")


def _invented(sizes: Iterable[tuple[int, int, int]]) -> Iterable[tuple[str, Case]]:
    return ((f"invented {size[0]}", bench_case(*size)) for size in sizes)


def test_sixteen_typical_cases() -> None:
    _report(_invented(TYPICAL))


def test_cases_as_large_as_the_largest_real_ones() -> None:
    _report(_invented(LARGE))


def test_cases_twice_as_large_as_any_real_one() -> None:
    _report(_invented(HUGE))


def test_every_real_pair_of_family_and_symptom(tmp_path: Path) -> None:
    records, _ = load_kept([CONTENT], tmp_path)
    complaints = Bench(Library(records)).complaints()
    _report((f"{c.view.id} {c.symptom.id}", c.case) for c in complaints)
