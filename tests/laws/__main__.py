"""Hold every sheet of the content, every pair of a family's remedies or random machines to the laws.

    python -m tests.laws               every sheet
    python -m tests.laws --pairs       and every pair of remedies of a family
    python -m tests.laws --random N    and N random machines
"""

from __future__ import annotations

import argparse
import itertools
import statistics
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from time import perf_counter

from generator.analysis.job.plan import plan
from generator.analysis.job.types import UPRIGHT, Plan
from generator.analysis.machine import Remedy
from generator.bench import Bench
from generator.content_rules import load_checked
from generator.family_view import FamilyView
from generator.library import Library
from tests.laws.facts import Facts, of_family
from tests.laws.laws import broken, unsaid
from tests.laws.made_up import made_up

ROOT = Path(__file__).parents[2]


def sheets(bench: Bench) -> Iterator[tuple[FamilyView, Facts, tuple[Remedy, ...]]]:
    """Every sheet's family and remedy."""
    for view in bench.library.views:
        facts = of_family(view)
        for mode, remedy in bench.remedies(view).items():
            if bench.sheet_of(view, remedy.id) == mode:
                yield view, facts, (remedy,)


def pairs(bench: Bench) -> Iterator[tuple[FamilyView, Facts, tuple[Remedy, ...]]]:
    """Every pair of remedies of a family."""
    for view in bench.library.views:
        facts = of_family(view)
        for two in itertools.combinations(sorted(set(bench.remedies(view).values()), key=lambda r: r.id), 2):
            yield view, facts, two


def turns(plan: Plan) -> int:
    """How often the head is turned."""
    lies = (UPRIGHT, *(step.position for step in plan.steps))
    return sum(one != other for one, other in itertools.pairwise(lies))


def _told(title: str, bench: Bench, asked: Iterable[tuple[FamilyView, Facts, tuple[Remedy, ...]]], shown: int = 3) -> None:
    began, count = perf_counter(), 0
    laws: dict[str, list[str]] = {}
    breaking: Counter[str] = Counter()
    turned, minutes = [], []
    for view, facts, remedies in asked:
        plan = bench.job(view, remedies).plan
        found = list(broken(facts, plan, remedies))
        breaking.update({law for law, _ in found})
        for law, said in found:
            laws.setdefault(law, []).append(f"{view.id} {' + '.join(r.id for r in remedies)}: {said}")
        turned.append(turns(plan))
        minutes.append(plan.minutes)
        count += 1
    print(f"{title}: {count} in {perf_counter() - began:.1f} s")
    for what, of in (("turns of the head", turned), ("minutes", minutes)):
        print(f"  {what}: worst {max(of):g}, median {statistics.median(of):g}, sum {sum(of):g}")
    for law, said in sorted(laws.items()):
        print(f"  {law}: broken on {breaking[law]}")
        for line in said[:shown]:
            print(f"    {line}")


def main() -> None:
    """Print what is broken."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--pairs", action="store_true")
    asked.add_argument("--random", type=int, default=0, metavar="N")
    asked.add_argument("--shown", type=int, default=3)
    options = asked.parse_args()
    bench = Bench(Library(load_checked([ROOT / "content"])[0]))
    _told("sheets", bench, sheets(bench), options.shown)
    if options.pairs:
        _told("pairs", bench, pairs(bench), options.shown)
    if options.random:
        _random(options.random)


def _random(count: int) -> None:
    began = perf_counter()
    laws: Counter[str] = Counter()
    for number in range(count):
        machine, practice, remedies, facts = made_up(number)
        laws.update({law for law, _ in unsaid(facts, plan(machine, practice, remedies), remedies)})
    print(f"random machines: {count} in {perf_counter() - began:.1f} s; broken: {dict(laws) or 'none'}")


main()
