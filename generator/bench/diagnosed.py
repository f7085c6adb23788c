"""A complaint with its order of checks and what other ways of working would cost."""

from __future__ import annotations

from dataclasses import dataclass

from generator.analysis.doubt.order import Order


@dataclass(frozen=True, slots=True)
class Diagnosed:
    """All that a bench page shows of the order of checks."""

    order: Order
    record_order_minutes: float
    "Checks as the records have them."
    caution_minutes: float
    "What wanting proof before a dear remedy adds to a job, reckoned with the rule of the next step."

    @property
    def ratio_order_minutes(self) -> float:
        """Most chance for its minutes first."""
        return self.order.next_step_minutes
