"""Rules about fault trees."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache, partial

from generator.records.as_used import unmet
from generator.records.finding import Finding, quote
from generator.records.gates import bad_gates, gates
from generator.records.model import Family
from generator.records.nested import children
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.built import Built
from generator.records.rules.reads import MACHINES, TREES, Reads, together
from generator.records.rules.registry import rule
from generator.records.schema import repeated
from generator.records.trees import can_occur


@rule("A gate is one of any, all and at_least.", "symptom", alone=True)
def one_kind_of_gate(book: Book) -> Iterator[Finding]:
    for id, record in book.content.records["symptom"].items():
        for route, gate, given in bad_gates(record.data):
            if given:
                message = f"This gate gives {' and '.join(given)}."
                hint = "Keep one of them; nest a gate for the rest."
                yield book.finding(("symptom", id), route, message, hint)
            elif gate.keys() <= {"id", "title"}:  # the schema speaks of a key that is misspelt
                message = "This gate gives none of any, all and at_least."
                yield book.finding(("symptom", id), route, message, "Add its inputs under `any`.")


@rule("A vote asks for no more inputs than it has.", "symptom", alone=True)
def vote_within_inputs(book: Book) -> Iterator[Finding]:
    for id, record in book.content.records["symptom"].items():
        for route, gate in gates(record.data):
            k, inputs = gate.get("at_least"), gate.get("of")
            if isinstance(k, int) and isinstance(inputs, list) and k > len(inputs):
                message = f"This vote asks for {k} of {len(inputs)} inputs."
                hint = f"Write at_least: {len(inputs)} or less, or add inputs."
                yield book.finding(("symptom", id), (*route, "at_least"), message, hint)


@rule("A gate's id stands once in its tree.", "symptom", alone=True)
def gate_ids_once(book: Book) -> Iterator[Finding]:
    for id, record in book.content.records["symptom"].items():
        seen: dict[str, Route] = {}
        for route, gate in gates(record.data):
            name = gate.get("id")
            here = (*route, "id")
            if isinstance(name, str) and seen.setdefault(name, here) != here:  # a place is looked up where it is told of: that is dear
                line = record.places.of(seen[name]).line
                if record.places.of(here).line != line:
                    message = f"Two gates of this tree are called {quote(name)}: see line {line}."
                    yield book.finding(("symptom", id), here, message, "Give one another id.")


@rule("A gate has each input once.", "symptom", alone=True)
def input_once_in_a_gate(book: Book) -> Iterator[Finding]:
    for id, record in book.content.records["symptom"].items():
        for route, gate in gates(record.data):
            for key in ("any", "all", "of"):
                inputs = [node for _, node in children(gate.get(key))]
                for place in repeated(inputs):
                    node = inputs[place]
                    if isinstance(node, str):
                        message = f"{quote(node)} is an input of this gate already."
                        yield book.finding(("symptom", id), (*route, key, place), message, "Take one of the two out.")


@rule(
    "A symptom that a family lists has a cause in that family.", "family",
    reads=Reads(together(MACHINES, TREES, {"family": ("symptoms",), "symptom": ("needs", "lacks")})),
)
def listed_symptom_has_causes(book: Book) -> Iterator[Finding]:
    for family, built, can_have in _listing(book):
        for place, id in enumerate(family.symptoms or ()):
            if not built.missing and not can_have(id):
                message = f"{quote(id)} has no cause that {quote(family.id)} can have."
                hint = "Take it out of `symptoms`, or mend the family's assemblies and features."
                yield book.finding(("family", family.id), ("symptoms", place), message, hint)


def _listing(book: Book) -> Iterator[tuple[Family, Built, Callable[[str], bool]]]:
    """Every family, what it is built of, and whether it can have a symptom: found out once for all that are alike."""
    for group in book.alike:
        can_have = cache(partial(_can_have, book, group[0][0]))
        yield from ((family, built, can_have) for family, built in group)


def _can_have(book: Book, family: Family, id: str) -> bool:
    symptom = book.records.symptoms.get(id)
    if symptom is None:
        return True  # broken or unknown: another rule says so
    if unmet(family.features, symptom.needs, symptom.lacks):
        return False
    return can_occur(symptom.tree, lambda mode: book.machines.can_have(family.id, mode), book.gates)
