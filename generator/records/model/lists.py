"""Entries of the small lists, as the schema has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool that records name."""

    id: str
    "Its key in the list."
    title: str
    "The name that a reader sees."
    size: str | None = None
    "A quantity as written."
    note: str | None = None
    "Markdown."


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution that stands before the step it guards."""

    id: str
    "Its key in the list."
    title: str
    "The name that a reader sees."
    text: str
    "Markdown: what to do, and why."
    level: str
    '"caution" or "danger".'
    defer: str | None = None
    "Markdown: who or what stands above this."
    needs: tuple[str, ...] = ()
    "Features that a family must have for this to apply."
    source: str | None = None
    "Id of a source."


@dataclass(frozen=True, slots=True)
class Term:
    """A term of the trade."""

    id: str
    "Its key in the list."
    title: str
    "The term."
    means: str
    "Markdown."
    also: tuple[str, ...] = ()
    "Other words for the same thing."
    see: tuple[str, ...] = ()
    "Ids of related terms."
    not_in: tuple[str, ...] = ()
    "Phrases in which the term's word means something else."


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures come from."""

    id: str
    "Its key in the list."
    title: str
    "The name that a reader sees."
    status: str
    "read, worked, memory, practice or invented."
    what: str | None = None
    "Markdown: what is taken from it."
    note: str | None = None
    "Markdown."


@dataclass(frozen=True, slots=True)
class Feature:
    """A fact that a family states as true or false."""

    id: str
    "Its key in the list."
    title: str
    "The name that a reader sees."
    absent: str
    'Said of a family without it, after "This family".'
    present: str | None = None
    'Said of a family with it, after "This family".'
    ask: str | None = None
    "A question that a person can answer at the machine."
    looks: float = 1
    "What seeing it takes, in glances."
    not_with: tuple[str, ...] = ()
    "Ids of features that no machine has together with it."
    only_with: tuple[str, ...] = ()
    "Ids of features that every machine with it has too."
    words: tuple[str, ...] = ()
    "Words that fit a machine only with it, or with another feature that lists them."
    not_words: tuple[str, ...] = ()
    "Words that do not fit a machine with it."
    calls: Mapping[str, str] = field(default_factory=dict)
    "Word of shared records -> what it is called on a machine with it."
    excuses: Mapping[str, str] = field(default_factory=dict)
    "Kind/id of a record that uses its words of other machines too -> why that is right."


@dataclass(frozen=True, slots=True)
class FigureKind:
    """A measure that a family may give."""

    id: str
    "Its key in the list, and in a family's `figures`."
    title: str
    "The name that a reader sees."
    measures: tuple[str, ...]
    'What a value may be: dimensions of `standards.quantity`, "number" or "words".'
    means: str
    "Markdown: what is measured."
    ask: str | None = None
    "What to ask of a machine whose family is not known; unset where it is not asked for."
    looks: float = 1
    "What seeing it takes, in glances."


@dataclass(frozen=True, slots=True)
class Question:
    """What to ask of a machine whose family is not known: of its bed, or of one of its mechanisms."""

    id: str
    '"bed", or the role of an assembly.'
    ask: str
    "A question that a person can answer at the machine."
    looks: float = 1
    "What seeing it takes, in glances."
    answers: Mapping[str, str] = field(default_factory=dict)
    "For the bed: its shape -> what a person sees."


@dataclass(frozen=True, slots=True)
class MachinePosition:
    """A way in which a machine can lie for work."""

    id: str
    "Its key in the list."
    title: str
    "The name that a reader sees."
    turn: str
    "What to do to bring the machine there: a sentence."
    leaving: str = ""
    "What to see to before the machine leaves it; empty for nothing."
