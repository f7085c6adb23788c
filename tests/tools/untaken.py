"""What share of each module's branches the tests take, those under 95 of 100: `python -m tests.tools.untaken coverage.json`."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

LEAST = 95.0
"Per cent of a module's branches, and of its statements."


def under(told: Mapping[str, Any], least: float = LEAST) -> Iterator[tuple[str, float, float, list[str]]]:
    """Module, per cent of its branches, per cent of its statements, and the branches not taken as `from->to`; the worst first."""
    found = [(_shares(file["summary"]), name, file["missing_branches"]) for name, file in told["files"].items()]
    for (branches, statements), name, missing in sorted(found):
        if min(branches, statements) < least:
            yield name, branches, statements, [f"{start}->{'out' if end < 0 else end}" for start, end in missing]


def _shares(summary: Mapping[str, int]) -> tuple[float, float]:
    return _share(summary["covered_branches"], summary["num_branches"]), _share(summary["covered_lines"], summary["num_statements"])


def _share(taken: int, of: int) -> float:
    return 100 * taken / of if of else 100


def main() -> None:
    """A line a module, then the whole."""
    told = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    print("branches  statements")
    for name, branches, statements, missing in under(told):
        print(f"{branches:6.1f} %  {statements:6.1f} %    {name}  {', '.join(missing)}")
    branches, statements = _shares(told["totals"])
    print(f"{branches:6.1f} %  {statements:6.1f} %    together")


if __name__ == "__main__":
    main()
