"""Rules about what is asked of a machine."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.rules.book import Book
from generator.records.rules.reads import Reads
from generator.records.rules.registry import rule

BED = "bed"
"The question whose answers stand in its own record."


@rule(
    "A question is about the bed, with its answers, or about a role that an assembly has.", "question",
    reads=Reads({"assembly": ("role",)}),
)
def question_is_of_something(book: Book) -> Iterator[Finding]:
    if {"assembly"} & {*book.content.blind, *book.content.unread}:
        return
    roles = {a.role for a in book.records.assemblies.values() if a.role}
    for id, question in book.records.questions.items():
        if id not in {BED, *roles}:
            hint = did_you_mean(id, [BED, *sorted(roles)], f"Name it `{BED}`, or after the `role` of an assembly.")
            yield book.finding(("question", id), (), f"{quote(id)} is no role of any assembly.", hint, key=True)
        if id != BED and question.answers:
            message = "Only the bed has its answers here."
            hint = "Say in `recognise` of each assembly of this role how to know it."
            yield book.finding(("question", id), ("answers",), message, hint, key=True)
