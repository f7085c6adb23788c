"""The order of checks that costs the fewest minutes in a world where no reading deceives and every remedy cures.

The bench is not that world: `generator.analysis.doubt` plans for it. This one bounds it from below, tells
machines apart, and says what checks could tell apart at best.
"""

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.check_order.solve import Solution, solve, solve_from

__all__ = ["Case", "Check", "Hypothesis", "Solution", "solve", "solve_from"]
