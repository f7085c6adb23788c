"""What is wrong with a record, as data."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Literal

from generator.records.node import Route
from generator.records.position import Position

Level = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Spot:
    """A value of a record, wherever in its file that stands."""

    kind: str
    "Kind of the record."
    id: str
    "Its id."
    route: Route
    "Route to the value."
    key: bool = False
    "Whether the value's key is meant."


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One fault in one place, with its mend. Findings sort by path, line and column."""

    path: Path
    "The file."
    line: int
    "From 1."
    column: int
    "From 1, in characters."
    message: str
    "The fault, as a sentence."
    hint: str
    "The mend, as a sentence."
    level: Level = "error"
    "An error stops a build; a warning does not, and a note is no fault at all."
    rule: str = ""
    "What it breaks: the name of a rule, `schema` for a shape, `file` for what is no good as YAML or is misplaced."
    spot: Spot | None = field(default=None, compare=False, repr=False)
    "The value that it is about, where a rule told of one: what is told of it holds where its file has other lines, too."


def fault(at: Position, message: str, hint: str, level: Level = "error", spot: Spot | None = None) -> Finding:
    """A finding at a position."""
    return Finding(at.path, at.line, at.column, message, hint, level, spot=spot)


def printable(text: str) -> str:
    """Text with every character that cannot be seen written out, so that it stays on one line.

    >>> printable("a\\u202eb\\n")
    'a\\\\u202eb\\\\n'
    """
    if text.isprintable():  # nearly every text: letter by letter would take most of a check's time
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def quote(text: object, most: int = 60) -> str:
    """A value in quotes, shortened, for use inside a sentence."""
    shown = printable(str(text))
    return f"'{shown[: most - 3]}...'" if len(shown) > most else f"'{shown}'"


def did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """A hint that names the nearest known word, or says something else to do."""
    near = get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    return f"Did you mean {quote(near[0])}?" if near else otherwise


def meant(finding: Finding) -> tuple[str, str] | None:
    """The word at a finding's place and the near one that its hint names, where both are there in full.

    >>> meant(Finding(Path("a.yaml"), 1, 1, "'hook-gaer' is no part.", "Did you mean 'hook-gear'?"))
    ('hook-gaer', 'hook-gear')
    """
    said, offer = re.match(r"'([^']+)' is no ", finding.message), re.fullmatch(r"Did you mean '([^']+)'\?", finding.hint)
    return (said[1], offer[1]) if said and offer and not said[1].endswith("...") else None
