"""What a fault tree says: its probability, its minimal cut sets, what matters in it.

Terms and symbols: IEC 61025. Events are independent; the same id in two places is one event.
Every function is exact where the tree's decision diagram fits the limits; otherwise it works with
the likeliest cut sets, says so, and bounds what it left out.
"""

from generator.analysis.fault_tree.answers import (
    CutSets,
    Probability,
    importance,
    minimal_cut_sets,
    top_probability,
)
from generator.analysis.fault_tree.cut_sets import Limits
from generator.analysis.fault_tree.importance import Importance

__all__ = [
    "CutSets",
    "Importance",
    "Limits",
    "Probability",
    "importance",
    "minimal_cut_sets",
    "top_probability",
]
