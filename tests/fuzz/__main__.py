"""Spoils records at random and reads them: findings or a book, never a traceback, within 5 s of the processor and 500 MB.

    nice python -m tests.fuzz --mutants 20000 --seed 1
"""

from __future__ import annotations

import argparse
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from itertools import islice
from pathlib import Path

from tests.fuzz.trying import Mutant, mutants, tried

SECONDS, MEMORY = 5, 500 * 2**20
"For one record, of the processor, and beyond the memory that the program itself takes."


def main() -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.fuzz")
    asked.add_argument("--mutants", type=int, default=20_000)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--keep", type=Path, default=Path("build/fuzz"), help="where records are put that a fault was found with")
    given = asked.parse_args()
    own = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (own + MEMORY, own + MEMORY))
    signal.signal(signal.SIGPROF, _too_long)
    told: Counter[str] = Counter()
    slowest = 0.0
    with tempfile.TemporaryDirectory() as work:
        for number, mutant in enumerate(islice(mutants(given.seed), given.mutants)):
            began = time.process_time()
            told[_tried(mutant, Path(work), given.keep, f"{given.seed}-{number}")] += 1
            slowest = max(slowest, time.process_time() - began)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"{given.mutants} mutants: {dict(told)}; the slowest {slowest:.2f} s; peak {peak} MB.")
    raise SystemExit(bool(told["fault"]))


def _too_long(*_: object) -> None:
    raise TimeoutError(f"Longer than {SECONDS} s.")


def _tried(mutant: Mutant, work: Path, keep: Path, name: str) -> str:
    signal.setitimer(signal.ITIMER_PROF, SECONDS)
    try:
        return tried(mutant, work)
    except Exception:
        keep.mkdir(parents=True, exist_ok=True)
        (keep / f"{name}-{Path(mutant.name).name}").write_bytes(mutant.raw)
        last = traceback.format_exc().strip().splitlines()
        print(f"{name} {mutant.name}{' alone' * mutant.alone}: {last[-1][:200]}  at {last[-3].strip()[:160]}", file=sys.stderr)
        return "fault"
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


if __name__ == "__main__":
    main()
