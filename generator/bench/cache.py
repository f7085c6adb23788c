"""Worked-out check orders, kept between builds under a name that changes with all they rest on."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path

from generator.analysis.check_order import Solution, solve
from generator.analysis.coverage import MissingCheck, missing_check
from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.order import order, price_of_caution, record_order_minutes
from generator.analysis.doubt.table import Table
from generator.bench.diagnosed import Diagnosed
from generator.kept import Kept

_ANALYSIS = Path(__file__).parent.parent / "analysis"


MOST = 5_000
"Orders kept: those of several states of a book of a thousand complaints."


@dataclass(frozen=True, slots=True)
class Missing:
    """What one complaint lacks."""

    checks: tuple[MissingCheck, ...]
    "In the order in which they were asked for."


class DiagnosisCache:
    """A folder of solved cases. Without a folder, cases are solved every time."""

    def __init__(self, folder: Path | None) -> None:
        self._store = Kept(folder, "order", Diagnosed, MOST)
        self._certain = Kept(folder, "certain", Solution, MOST)
        self._missing = Kept(folder, "missing", Missing, MOST)

    def diagnosed(self, case: Doubt) -> Diagnosed:
        """The case solved, from the folder if the same case was solved by the same code."""
        return self._kept(case) or self._keep(case, _diagnose(case))

    def solved(self, cases: Sequence[Doubt], say: Callable[[str], None]) -> dict[int, Diagnosed]:
        """Those of the cases that were not kept yet, by their place, solved on every core and kept.

        `say` is told now and then how far it is, where that takes long.
        """
        not_kept = [number for number, case in enumerate(cases) if not self._store.has(_fingerprint(case))]
        solved = _solved([cases[number] for number in not_kept], say)
        found = {number: self._keep(cases[number], diagnosed) for number, diagnosed in zip(not_kept, solved, strict=True)}
        for store in (self._store, self._certain, self._missing):
            store.prune()
        return found

    def name(self, case: Doubt) -> str:
        """What stands for the order of a case: another order has another name."""
        return _fingerprint(case)

    def certain(self, case: Doubt) -> Solution:
        """The order of a world in which nothing deceives: what coverage is reckoned with."""
        name = _fingerprint(case)
        return self._certain.read(name) or self._certain.write(name, solve(case.case))

    def missing(self, case: Doubt, solution: Solution, asked: Sequence[tuple[str, ...]]) -> tuple[MissingCheck, ...]:
        """The check that is missing most, for each set of hypotheses; `solution` is that of `certain`."""
        name = hashlib.sha256(f"{_fingerprint(case)}{_coverage_code()}{asked!r}".encode()).hexdigest()[:40]
        found = self._missing.read(name) or self._missing.write(name, _missing(case, solution, asked))
        return found.checks

    def _kept(self, case: Doubt) -> Diagnosed | None:
        return self._store.read(_fingerprint(case))

    def _keep(self, case: Doubt, diagnosed: Diagnosed) -> Diagnosed:
        return self._store.write(_fingerprint(case), diagnosed)


LATER = {"worklist.py", "ranking.py"}
"Modules that take an order as it is."
ALONE = 3
"Cases up to which starting other processes costs more than it saves."
STEP = 25
"Cases between two reports."


def _solved(cases: Sequence[Doubt], say: Callable[[str], None]) -> Iterator[Diagnosed]:
    """Every case solved, in order."""
    if len(cases) <= ALONE:
        yield from map(_diagnose, cases)
        return
    from concurrent.futures import (
        ProcessPoolExecutor,  # slow to load, and not needed for kept orders
    )

    with ProcessPoolExecutor(max_workers=os.cpu_count()) as workers:
        for number, diagnosed in enumerate(workers.map(_diagnose, cases), 1):
            if number % STEP == 0 or number == len(cases):
                say(f"Orders of checks worked out: {number} of {len(cases)}")
            yield diagnosed


def _diagnose(case: Doubt) -> Diagnosed:
    table = Table(case)
    found = order(table)
    return Diagnosed(found, record_order_minutes(table), price_of_caution(case, found))


def _missing(case: Doubt, solution: Solution, asked: Sequence[tuple[str, ...]]) -> Missing:
    return Missing(tuple(missing_check(case.case, solution, hypotheses) for hypotheses in asked))


def _fingerprint(doubt: Doubt) -> str:
    """Of the case to the last digit and of every line of code that could change its solution."""
    case = doubt.case
    parts = sorted(case.machine.parts.items()), sorted(case.machine.settings.items())
    checks = [(c.id, c.minutes, c.reach, c.outcomes, sorted(c.sees.items()), sorted(c.cured)) for c in case.checks]
    shares = case.machine.found_out, case.machine.mains_test, case.proving_minutes
    content = repr((case.hypotheses, checks, parts, *shares, _doubts(doubt)))
    return hashlib.sha256((_code() + content).encode()).hexdigest()[:40]


def _doubts(doubt: Doubt) -> list[object]:
    """All that a doubtful case holds beside its case, sets in order."""
    held = {f.name: getattr(doubt, f.name) for f in fields(doubt) if f.name not in ("case", "readings")}
    readings = [(c, r.sound, r.trust, sorted(r.does)) for c, r in doubt.readings.items()]
    return [readings, *(sorted(v) if isinstance(v, frozenset) else v for v in held.values())]


@cache
def _code() -> str:
    here = Path(__file__)
    own = (here, here.with_name("diagnosed.py"), _ANALYSIS / "machine.py", _ANALYSIS / "minutes.py", _ANALYSIS / "policy.py")
    folders = [path for name in ("check_order", "doubt") for path in (_ANALYSIS / name).rglob("*.py") if path.name not in LATER]
    sources = sorted([*folders, *own, _ANALYSIS.parent / "typed_json.py"])
    return hashlib.sha256(b"".join(path.read_bytes() for path in sources)).hexdigest()


@cache
def _coverage_code() -> str:
    return hashlib.sha256(b"".join(path.read_bytes() for path in sorted((_ANALYSIS / "coverage").glob("*.py")))).hexdigest()
