"""Worked-out check orders, kept between builds under a name that changes with all they rest on."""

from __future__ import annotations

import hashlib
import pickle
from functools import cache
from pathlib import Path

from generator.analysis.check_order import Case, ratio_order, record_order, solve
from generator.bench.diagnosed import Diagnosed

_ANALYSIS = Path(__file__).parent.parent / "analysis"


class DiagnosisCache:
    """A folder of solved cases. Without a folder, cases are solved every time."""

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder

    def diagnosed(self, case: Case) -> Diagnosed:
        """The case solved, from the folder if the same case was solved by the same code."""
        if self._folder is None:
            return _diagnose(case)
        path = self._folder / f"{_fingerprint(case)}.pickle"
        return _read(path) or _written(path, _diagnose(case))


def _diagnose(case: Case) -> Diagnosed:
    return Diagnosed(solve(case), record_order(case), ratio_order(case))


def _fingerprint(case: Case) -> str:
    """Of the case to the last digit and of every line of code that could change its solution."""
    parts = sorted(case.machine.parts.items()), sorted(case.machine.settings.items())
    checks = [(c.id, c.minutes, c.reach, c.outcomes, sorted(c.sees.items()), sorted(c.cured)) for c in case.checks]
    content = repr((case.hypotheses, checks, parts, case.proving_minutes))
    return hashlib.sha256((_code() + content).encode()).hexdigest()[:40]


@cache
def _code() -> str:
    sources = sorted(_ANALYSIS.rglob("*.py"))
    return hashlib.sha256(b"".join(path.read_bytes() for path in sources)).hexdigest()


def _read(path: Path) -> Diagnosed | None:
    """What the file holds, or None: a cache that cannot be read is no fault."""
    try:
        found = pickle.loads(path.read_bytes())
    except (OSError, pickle.UnpicklingError, EOFError, AttributeError, ImportError, IndexError):
        return None
    return found if isinstance(found, Diagnosed) else None


def _written(path: Path, diagnosed: Diagnosed) -> Diagnosed:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        part = path.with_suffix(".part")
        part.write_bytes(pickle.dumps(diagnosed))
        part.replace(path)
    except OSError:
        pass
    return diagnosed
