"""Rules about what is read before what: evidence that a check destroys, and checks that come before all others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from generator.records.finding import Finding, quote
from generator.records.model import Check
from generator.records.rules.book import Book
from generator.records.rules.paths import rounds, spelled
from generator.records.rules.reads import Reads
from generator.records.rules.registry import rule

READS = Reads({"symptom": ("before",), "check": ("outcomes.*.cured", "evidence_lost_by", "only_for")})


@rule("Checks that destroy one another's evidence come to an end.", "check", reads=Reads({"check": ("evidence_lost_by",)}))
def no_round_of_evidence(book: Book) -> Iterator[Finding]:
    graph = {id: set(check.evidence_lost_by) for id, check in book.records.checks.items()}
    for id in sorted(id for id, lost in graph.items() if id in lost):
        where = _entry(book, id, id)
        yield book.finding(*where, f"{quote(id)} destroys its own evidence.", "Take it out of its `evidence_lost_by`.")
    for way in rounds({id: lost - {id} for id, lost in graph.items()}):
        message = f"Each of these would have to come before the next: {spelled(way)}."
        hint = "Take one of them out of an `evidence_lost_by`."
        yield book.finding(*_entry(book, way[0], way[1]), message, hint)


@rule("A check that comes before all others only looks.", "symptom", reads=READS)
def before_only_looks(book: Book) -> Iterator[Finding]:
    """No trial is among them, and none destroys what another is to read after it."""
    checks, losing = book.records.checks, _losing(book)
    for id, symptom in book.records.symptoms.items():
        for place, first in enumerate(symptom.before):
            where = (("symptom", id), ("before", place))
            if first in checks and any(outcome.cured for outcome in checks[first].outcomes):
                message = f"{quote(first)} is a trial that may end the job, so it cannot come before all others."
                yield book.finding(*where, message, "Take it out of `before`.")
            for reads in _spoilt(losing.get(first, ()), id, symptom.before[:place]):
                message = f"{quote(first)} comes before all others, yet destroys what {quote(reads)} reads."
                yield book.finding(*where, message, f"Put {quote(reads)} before it, or take it out of `before`.")


def _losing(book: Book) -> Mapping[str, list[Check]]:
    """Check -> the checks whose evidence it destroys."""
    found: dict[str, list[Check]] = defaultdict(list)
    for check in book.records.checks.values():
        for destroys in dict.fromkeys(check.evidence_lost_by):
            found[destroys].append(check)
    return found


def _spoilt(losing: Iterable[Check], symptom: str, earlier: tuple[str, ...]) -> list[str]:
    """Checks for the symptom that come too late after the one by which these lose their evidence."""
    return [check.id for check in losing if check.id not in earlier and (not check.only_for or symptom in check.only_for)]


def _entry(book: Book, reads: str, destroys: str) -> tuple[tuple[str, str], tuple[str | int, ...]]:
    return ("check", reads), ("evidence_lost_by", book.records.checks[reads].evidence_lost_by.index(destroys))
