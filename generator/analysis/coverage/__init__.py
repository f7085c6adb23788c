"""What the checks of a case can tell apart, what they cannot, and which check is missing most.

Terms as testability engineering has them (MIL-STD-2165, IEEE 1522; from memory): the *dependency
matrix* has a row for each cause and a column for each check; causes with equal rows are an
*ambiguity group*; the *isolated fraction* to size n is the weight of the causes in groups of at
most n, over the weight of all causes that are detected. The complaint itself detects every cause of
a case, so that the whole of the case stands below the line.
"""

from generator.analysis.coverage.groups import (
    Group,
    Matrix,
    ambiguity_groups,
    isolated,
    isolated_to_remedies,
    matrix,
    silent_checks,
)
from generator.analysis.coverage.missing import MINUTES, MissingCheck, missing_check
from generator.analysis.coverage.turns import tried_in_turn

__all__ = [
    "MINUTES",
    "Group",
    "Matrix",
    "MissingCheck",
    "ambiguity_groups",
    "isolated",
    "isolated_to_remedies",
    "matrix",
    "missing_check",
    "silent_checks",
    "tried_in_turn",
]
