"""The list of rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from generator.records.finding import Finding
from generator.records.rules.book import Book

Find = Callable[[Book], Iterable[Finding]]

RULES: list[Rule] = []
"Every rule, in the order of the modules that hold them."


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule about the content."""

    name: str
    "Lower-case words joined by hyphens."
    description: str
    "What holds where the rule is kept, in one line."
    scope: str
    "The kind of record that it speaks of, or `all`."
    find: Find
    "Everything that breaks it."

    def run(self, book: Book) -> Iterator[Finding]:
        """Everything that breaks the rule."""
        yield from self.find(book)


def rule(description: str, scope: str = "all") -> Callable[[Find], Find]:
    """Enter a generator of findings in the list; the rule is named after it."""

    def enter(find: Find) -> Find:
        RULES.append(Rule(find.__name__.replace("_", "-"), description, scope, find))
        return find

    return enter
