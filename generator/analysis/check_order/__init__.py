"""The order of checks that costs the fewest expected bench minutes."""

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.next_step import Step, next_step
from generator.analysis.check_order.policy import (
    Branch,
    CheckNode,
    Node,
    RemedyNode,
    expected_minutes,
    to_json,
)
from generator.analysis.check_order.rules import ratio_order, record_order
from generator.analysis.check_order.solve import Solution, solve, solve_from

__all__ = [
    "Branch",
    "Case",
    "Check",
    "CheckNode",
    "Hypothesis",
    "Node",
    "RemedyNode",
    "Solution",
    "Step",
    "expected_minutes",
    "next_step",
    "ratio_order",
    "record_order",
    "solve",
    "solve_from",
    "to_json",
]
