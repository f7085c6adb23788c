"""A case with its best order of checks and what two plain rules would cost."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.check_order import Solution


@dataclass(frozen=True, slots=True)
class Diagnosed:
    """All that a bench page shows of the order of checks."""

    solution: Solution
    record_order_minutes: float
    "Checks as the records have them."
    ratio_order_minutes: float
    "Most probability for its cost first."
