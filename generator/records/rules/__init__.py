"""Rules about the content: one rule, one generator of findings. A module put here is found by itself."""

import sys

from generator.records.rules.book import Book
from generator.records.rules.registry import Rule, rule, rules_in

RULES = rules_in(sys.modules[__name__])
"Every rule of this floor."

__all__ = ["RULES", "Book", "Rule", "rule"]
