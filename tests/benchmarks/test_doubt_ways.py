"""What the order under doubt costs and is worth, over every complaint of the book.

Run with `pytest -s`: some minutes. Figures are printed, none decides.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import process_time

from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.order import order
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.rules import record_order
from generator.analysis.doubt.table import Table
from generator.bench import Bench
from generator.library import Library
from generator.store import load_kept
from tests.analysis.doubt.doubt_habit import likeliest_first
from tests.analysis.doubt.doubt_simulate import Tally, Worker, by_rule, simulate
from tests.benchmarks.certain_worker import certain_worker

CONTENT = Path(__file__).parents[2] / "content"
JOBS, SEED = 100, 11
WAYS: dict[str, Callable[[Table], Callable[[], Worker]]] = {
    "order under doubt": lambda table: by_rule(table, Rollout(table).move),
    "next step alone": lambda table: by_rule(table, next_move),
    "certain world": certain_worker,
    "record order": lambda table: by_rule(table, record_order),
    "careful habit": lambda table: by_rule(table, likeliest_first),
}
FIGURES = ("minutes", "cured", "first_cured", "unproved", "dear_unproved")


def test_what_every_way_of_working_takes_on_the_real_complaints() -> None:
    records, errors = load_kept((CONTENT,), None)
    assert not errors
    bench = Bench(Library(records))
    doubts = [c.doubt for c in bench.complaints()]
    began = process_time()
    plans = [order(d) for d in doubts]
    print(f"\n{len(doubts)} plans in {process_time() - began:.1f} s of one core, {sum(p.exact for p in plans)} exact,", end=" ")
    print(f"lower bound {sum(p.lower_bound / p.expected_minutes for p in plans) / len(plans):.0%} of the minutes")
    print(f"{'':20}" + "".join(f"{figure:>15}" for figure in FIGURES))
    for name, way in WAYS.items():
        found = [simulate(table, way(table), JOBS, SEED) for table in map(Table, doubts)]
        print(f"{name:20}" + "".join(f"{_mean(found, figure):15.3f}" for figure in FIGURES))


def _mean(found: list[Tally], figure: str) -> float:
    return sum(getattr(tally, figure) for tally in found) / len(found)
