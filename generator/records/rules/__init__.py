"""Rules about the content: one rule, one generator of findings."""

from generator.records.rules import (
    checks,
    cycles,
    families,
    modes,
    names,
    text,
    trees,
    unused,
    values,
)
from generator.records.rules.book import Book
from generator.records.rules.registry import RULES, Rule, rule

__all__ = [
    "RULES",
    "Book",
    "Rule",
    "checks",
    "cycles",
    "families",
    "modes",
    "names",
    "rule",
    "text",
    "trees",
    "unused",
    "values",
]
