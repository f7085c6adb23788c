"""Rules about the content: one rule, one generator of findings."""

from generator.records.rules import names
from generator.records.rules.book import Book
from generator.records.rules.registry import RULES, Rule, rule

__all__ = ["RULES", "Book", "Rule", "rule"]
