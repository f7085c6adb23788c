"""Warnings about records that nothing uses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set

from generator.records.finding import Finding, quote
from generator.records.kinds import KINDS
from generator.records.rules.book import Book
from generator.records.rules.prose import Key
from generator.records.rules.reads import FITTING, TREES, Reads, together
from generator.records.rules.registry import rule

_ENTRIES = ("technique", "tool", "caution")


@rule("Every failure mode stands in a fault tree.", "failure-mode", reads=Reads(together(TREES, {"failure-mode": ()})))
def mode_in_a_tree(book: Book) -> Iterator[Finding]:
    for id in _idle(book, "failure-mode", book.in_trees):
        hint = "Put it in a symptom's tree, or take it away."
        yield _warning(book, "failure-mode", id, f"{quote(id)} is in no fault tree.", hint)


@rule("Every check tells causes in some fault tree apart.", "check", reads=Reads(FITTING))
def check_fits_a_cause(book: Book) -> Iterator[Finding]:
    useful = {
        id
        for id, check in book.records.checks.items()
        if any(book.fits.get(fit, frozenset()) & book.in_trees for outcome in check.outcomes for fit in outcome.fits)
    }
    for id in _idle(book, "check", useful):
        hint = "Name in `fits` a failure mode that is in a tree."
        yield _warning(book, "check", id, "No outcome of this check fits a cause in any fault tree.", hint)


@rule("Every assembly is in a family.", "assembly", reads=Reads({"assembly": (), "family": ("assemblies",)}))
def assembly_in_a_family(book: Book) -> Iterator[Finding]:
    for id in _idle(book, "assembly", _named(book, "assembly")):
        hint = "Put it in a family's `assemblies`, or take it away."
        yield _warning(book, "assembly", id, f"{quote(id)} is in no family.", hint)


def entries_named(book: Book) -> Mapping[str, Key]:
    """Kind and id of an entry, with a stroke between -> a record that names it."""
    return {f"{r.target}/{r.id}": (r.record.kind, r.record.id) for r in book.references if r.target in _ENTRIES}


@rule("Every technique, tool and caution is named by a record.", reads=Reads({"technique": ()}), users=entries_named)
def entry_is_named(book: Book) -> Iterator[Finding]:
    named = entries_named(book)
    for kind in _ENTRIES:
        for id in _idle(book, kind, {id for id in book.content.records[kind] if f"{kind}/{id}" in named}):
            message = f"No record names the {kind} {quote(id)}."
            yield _warning(book, kind, id, message, "Name it where it is needed, or take it away.")


@rule("Every glossary term is used in some text.", "term", reads=Reads({}), users=lambda book: book.terms)
def term_is_used(book: Book) -> Iterator[Finding]:
    for id in _idle(book, "term", book.terms.keys()):
        hint = "Use the word in a record, or take the term away."
        yield _warning(book, "term", id, f"No text uses the term {quote(id)}.", hint)


def _named(book: Book, kind: str) -> set[str]:
    return {r.id for r in book.references if r.target == kind}


def _idle(book: Book, kind: str, used: Set[str]) -> list[str]:
    """Sound records of a kind that nothing uses; none while a file that might use them is closed to us."""
    if book.content.blind:
        return []
    records = book.content.records[kind].values()
    return [r.id for r in records if r.sound and r.id not in used and r.id not in book.content.words]


def _warning(book: Book, kind: str, id: str, message: str, hint: str) -> Finding:
    key = KINDS[kind].is_list
    return book.finding((kind, id), (), message, hint, key=key, level="warning")
