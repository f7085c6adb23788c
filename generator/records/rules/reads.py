"""What a rule looks at: by it a change to a record is known to leave all that the rule finds as it was.

A rule that says nothing of it looks at the whole book, and is asked again after every change.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from generator.records.nested import match
from generator.records.read import Record

if TYPE_CHECKING:
    from generator.records.rules.book import Book

Patterns = Mapping[str, tuple[str, ...]]
"Kind of record -> where a rule looks in one, as `match` has it, the steps parted by dots; nowhere, where only its being there counts."
Hears = Callable[[str], object]
"What a rule makes of a text; nothing that is true where the text says nothing to it."


def _as_it_is(book: Book) -> Hears:
    return str


@dataclass(frozen=True, slots=True)
class Reads:
    """What a rule looks at in records of any kind."""

    of: Patterns
    "Values. What a kind that is not named here has, the rule never sees."
    texts: Patterns = field(default_factory=dict)
    "Texts, of kinds that are named above too."
    hears: Callable[[Book], Hears] = _as_it_is
    "What it makes of those texts, by the lists of a book: texts of which it makes the same are alike to it."

    def seen(self, record: Record | None, hears: Hears) -> str:
        """What the rule sees of a record, of one that is not there too: as long as that is the same, so is all that it finds."""
        if record is None or record.kind not in self.of:
            return ""
        heard = [(route, hears(text) if isinstance(text, str) else text) for route, text in _found(record, self.texts)]
        return repr((record.sound, _found(record, self.of), [(route, said) for route, said in heard if said]))


def _found(record: Record, patterns: Patterns) -> list[tuple[object, object]]:
    found = (match(record.data, tuple(pattern.split("."))) for pattern in patterns.get(record.kind, ()))
    return [(route, _untitled(value) if route == ("tree",) else value) for matches in found for route, _, value in matches]


def _untitled(tree: object) -> object:
    """A fault tree without the titles of its gates, which no rule that follows trees looks at."""
    if isinstance(tree, dict):
        return {key: _untitled(below) for key, below in tree.items() if key != "title"}
    return [_untitled(below) for below in tree] if isinstance(tree, list) else tree


def together(*several: Patterns) -> Patterns:
    """All that any of them names.

    >>> together({"check": ("reach",)}, {"check": ("how",), "symptom": ()})
    {'check': ('reach', 'how'), 'symptom': ()}
    """
    kinds = dict.fromkeys(kind for one in several for kind in one)
    return {kind: tuple(dict.fromkeys(pattern for one in several for pattern in one.get(kind, ()))) for kind in kinds}


def _of_items(*keys: str) -> tuple[str, ...]:
    """Patterns for keys of an assembly's parts and settings."""
    return tuple(f"{group}.*.{key}" for group in ("parts", "settings") for key in keys)


BUILT: Patterns = {
    "family": ("title", "features", "assemblies"),
    "assembly": ("parts.*:", "settings.*:", *_of_items("needs", "lacks")),
}
"What says which parts and settings a family has, and what it is called."
BEHIND: Patterns = {"assembly": ("parts.*.behind", "parts.*.off.position")}
"What is behind what, and how the machine lies for it."
JOINTS: Patterns = {"assembly": _of_items("joints")}
"What holds what."
TREES: Patterns = {"symptom": ("tree",)}
"Fault trees, but for the titles of gates."
SEATS: Patterns = {"failure-mode": ("part", "setting", "needs", "lacks")}
"Which machines can have a failure mode."
FITTING: Patterns = together({"check": ("outcomes.*.fits",)}, TREES, SEATS, {"assembly": ("parts.*:", "settings.*:")})
"Which failure modes an outcome fits."
MACHINES: Patterns = together(BUILT, SEATS)
"""Which family can have which failure mode.

Which families are alike (`Book.alike`) need not be named: a rule finds the same where it takes each by itself.
"""
