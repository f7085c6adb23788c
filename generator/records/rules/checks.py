"""Rules about the outcomes of checks."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.references import FITS
from generator.records.rules.book import Book
from generator.records.rules.reads import FITTING, Reads, together
from generator.records.rules.registry import rule


@rule(
    "Every outcome fits something.", "check",
    reads=Reads(together(FITTING, {"check": ("outcomes.*:", "outcomes.*.otherwise", "outcomes.*.good")})),
)
def outcome_fits_something(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        for place, outcome in enumerate(check.outcomes):
            where = (("check", id), ("outcomes", place))
            if not outcome.fits and not outcome.otherwise and not outcome.good:
                yield book.finding(*where, "This outcome fits nothing.", "Add `fits:` or `otherwise: true`.")
            elif outcome.fits and _all_empty(book, outcome.fits):
                names = ", ".join(quote(fit) for fit in outcome.fits)
                message = f"No failure mode stands under {names}, so this outcome fits nothing."
                yield book.finding(*where, message, "Name failure modes, or what has some.")


def _all_empty(book: Book, fits: tuple[str, ...]) -> bool:
    """Whether all that is named exists and yet no failure mode stands under any of it."""
    if any(book.fits.get(fit) for fit in fits) or {"failure-mode", "symptom", "assembly"} & set(book.content.unread):
        return False
    return all(any(fit in book.defined[kind] for kind in FITS) for fit in fits)


@rule("A check has one `otherwise` at most.", "check", alone=True)
def one_otherwise(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        places = [place for place, outcome in enumerate(check.outcomes) if outcome.otherwise]
        for place in places[1:]:
            route = ("outcomes", place, "otherwise")
            message = f"Outcome {places[0] + 1} is `otherwise` already."
            yield book.finding(("check", id), route, message, "Keep one of the two.", key=True)


@rule("A check has one `good` outcome at most, and no trial ends well on a sound machine.", "check", alone=True)
def one_good(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        places = [place for place, outcome in enumerate(check.outcomes) if outcome.good]
        for place in places:
            where = (("check", id), ("outcomes", place, "good"))
            if check.outcomes[place].cured:
                message = "A machine with nothing wrong cannot be seen cured."
                yield book.finding(*where, message, "Take out `good:` or `cured:`.", key=True)
            elif place != places[0]:
                message = f"Outcome {places[0] + 1} is `good` already."
                yield book.finding(*where, message, "Keep one of the two.", key=True)


@rule("What an outcome fits has one meaning.", "check", reads=Reads(FITTING))
def fits_mean_one_thing(book: Book) -> Iterator[Finding]:
    for reference in (named for named in book.references if named.target == "fit"):
        kinds = [kind for kind in FITS if reference.id in book.defined[kind]]
        if len(kinds) > 1:
            names = " and ".join(f"a {kind}".replace("a assembly", "an assembly") for kind in kinds)
            message = f"{quote(reference.id)} is {names.replace('-', ' ')}."
            hint = "Name the failure modes, or write a gate as symptom/gate."
            where = (reference.record.kind, reference.record.id)
            yield book.finding(where, reference.route, message, hint)


@rule(
    "A failure mode is named in one outcome of a check.", "check",
    reads=Reads({"check": ("outcomes.*.fits",), "failure-mode": ()}),
)
def mode_in_one_outcome(book: Book) -> Iterator[Finding]:
    for id, check in book.records.checks.items():
        first: dict[str, int] = {}
        for place, outcome in enumerate(check.outcomes):
            for number, fit in enumerate(outcome.fits):
                before = first.setdefault(fit, place)
                if before != place and fit in book.defined["failure-mode"]:
                    route = ("outcomes", place, "fits", number)
                    message = f"{quote(fit)} is named in outcome {before + 1} already, and that one counts."
                    yield book.finding(("check", id), route, message, "Keep it in one outcome.")
