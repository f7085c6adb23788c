"""What `check --explain` prints of a rule, and of all of them."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from generator.commands import common
from generator.content_rules import ALL_RULES
from generator.records.cases import case_of
from generator.records.kinds import KINDS

_READING = {
    "file": "A file is where its kind of record belongs, and is YAML that can be read in one way only.",
    "layers": "Where a later content folder says other than an earlier one, the later one wins: a note, and no fault.",
    "schema": "A record has the keys and the shapes of its schema. The page Contribute lists them.",
}
"What stands before all rules, under the names that its findings bear."


def listed() -> Iterator[str]:
    """Every rule with what it holds, a line each."""
    held = {**_READING, **{rule.name: rule.description for rule in ALL_RULES}}
    width = max(map(len, held))
    yield from (f"{name:{width}}  {held[name]}" for name in sorted(held))


def explained(name: str) -> Iterator[str]:
    """One rule with records that break it and the same records mended. Refuses a name that is no rule's."""
    rules = {rule.name: rule for rule in ALL_RULES}
    name = common.known(name, [*rules, *_READING], "rule")
    yield f"{name} ({_scope(rules[name].scope if name in rules else 'all')})"
    yield rules[name].description if name in rules else _READING[name]
    case = case_of(name)
    if case:
        yield from _records("Bad", case.bad)
        yield from ("", "It says:", "", *(f"    {line}" for line in case.said))
        yield from _records("Good", case.good)


def _scope(kind: str) -> str:
    return "every kind of record" if kind == "all" else KINDS[kind].noun


def _records(word: str, files: Mapping[str, str]) -> Iterator[str]:
    for place, text in files.items():
        yield from ("", f"{word}, in {place}:", "", textwrap.indent(text.rstrip(), "    "))
