"""Expected minutes of the plain rules, followed to the end."""

from __future__ import annotations

from generator.analysis.check_order import Case
from generator.analysis.check_order.policy import grow
from generator.analysis.check_order.rules import best_ratio, next_in_record
from generator.analysis.check_order.situation import Situation
from generator.analysis.policy import expected_minutes


def record_order(case: Case) -> float:
    """When checks are done as they stand in the record."""
    return expected_minutes(grow(Situation(case, case.hypotheses), next_in_record))


def ratio_order(case: Case) -> float:
    """When the step of most probability for its cost is always done next."""
    return expected_minutes(grow(Situation(case, case.hypotheses), best_ratio))
