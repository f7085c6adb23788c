"""What a rule is, and where the rules of a package are found."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

from generator.records.finding import Finding
from generator.records.rules.book import Book
from generator.records.rules.prose import Key
from generator.records.rules.reads import Reads

Find = Callable[[Book], Iterable[Finding]]
Users = Callable[[Book], Mapping[str, Key]]
"What of a list is used -> a record that uses it."


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
    alone: bool = False
    "Whether what it finds in a record rests on that record, on which ids there are and on what stands in lists, and on nothing else."
    reads: Reads | None = None
    "What it looks at, where it is not `alone`; None: at the whole book."
    users: Users | None = None
    "Of a rule that asks, beside what it `reads`, only whether something is used by any record: who uses what."

    def run(self, book: Book) -> Iterator[Finding]:
        """Everything that breaks the rule, under its name."""
        for finding in self.find(book):
            yield replace(finding, rule=self.name)


def rule(
    description: str, scope: str = "all", *, alone: bool = False, reads: Reads | None = None, users: Users | None = None
) -> Callable[[Find], Rule]:
    """Make a generator of findings a rule; it is named after the generator. See `Rule` for what is said of it."""

    def make(find: Find) -> Rule:
        return Rule(find.__name__.replace("_", "-"), description, scope, find, alone, reads, users)

    return make


def rules_in(package: ModuleType) -> tuple[Rule, ...]:
    """Every rule that a module of the package holds, by module and then as they stand in the file."""
    modules = [import_module(f"{package.__name__}.{found.name}") for found in iter_modules(package.__path__)]
    return tuple(
        held
        for module in modules
        for held in vars(module).values()
        if isinstance(held, Rule) and held.find.__module__ == module.__name__
    )
