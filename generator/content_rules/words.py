"""Rules about words: what a record says fits every machine that it speaks of."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.records.as_used import unmet
from generator.records.finding import Finding, quote
from generator.records.model import Check, FailureMode, Family, Symptom
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.reads import FITTING, MACHINES, Hears, Reads, together
from generator.records.rules.registry import rule
from generator.records.trees import can_occur
from generator.records.words import Words, strangers

Text = tuple[Route, str]
"Where a text stands in its record, and the text."


@dataclass(frozen=True)
class _Machine:
    """A family as far as words go."""

    family: Family
    modes: frozenset[str]
    "Failure modes that it can have."
    symptoms: frozenset[str]
    "Symptoms that it can show."
    checks: frozenset[str]
    "Checks of which an outcome fits one of its failure modes."
    strange: frozenset[str]
    "Words that do not fit it."


def _hears(book: Book) -> Hears:
    words = Words(book.records.features.values())
    return lambda text: text if words.of(text) else None


READS = Reads(
    together(
        MACHINES,
        FITTING,
        {"check": ("needs", "lacks", "only_for", "outcomes.*.otherwise", "outcomes.*.good")},
        {"symptom": ("needs", "lacks"), "failure-mode": ("looks_like.*.mode",)},
    ),
    {
        "failure-mode": ("title", "comes_about", "effects", "if_left", "remedy.advise", "remedy.how", "signs.*", "looks_like.*.tell"),
        "symptom": ("title", "summary", "stop_why", "first"),
        "check": ("title", "how", "expect", "outcomes.*.says", "outcomes.*.means"),
    },
    _hears,
)


@rule("Words of a record fit every machine that uses it.", reads=READS)
def words_fit_the_machine(book: Book) -> Iterator[Finding]:
    """Each word of a record is told once, with the first family that it does not fit."""
    told: set[tuple[tuple[str, str], Route, str]] = set()
    words = Words(book.records.features.values())
    for machine in _machines(book, words):
        for record, (route, text) in _spoken_of(book, machine):
            if machine.strange.isdisjoint(words.of(text)):
                continue
            for word in _strange(book, machine.family, record, text):
                if (record, route, word) not in told:
                    told.add((record, route, word))
                    message = f"{quote(word)} does not fit {machine.family.title}, which uses this."
                    hint = "Say it so that it fits, begin with where it holds, or excuse it in features.yaml with the reason."
                    yield book.finding(record, route, message, hint, level="warning")


@rule("A caution needs what it speaks of.", "caution", reads=Reads({"family": ("title", "features")}))
def caution_needs_what_it_speaks_of(book: Book) -> Iterator[Finding]:
    words_of = Words(book.records.features.values())
    families = [group[0][0] for group in book.alike]  # the first of those that are alike is the one that is told of
    unfit = {family.id: words_of.unfit(family.features) for family in families}
    for id, caution in book.records.cautions.items():
        said = words_of.of(caution.title) | words_of.of(caution.text)
        for family in families:
            if unfit[family.id].isdisjoint(said) or any(not family.features.get(f) for f in caution.needs):
                continue
            words = [w for text in (caution.title, caution.text) for w in _strange(book, family, ("caution", id), text)]
            if words:
                message = f"{quote(words[0])} does not fit {family.title}, where this caution is shown."
                hint = "Name the feature under `needs`, or say it so that it fits."
                yield book.finding(("caution", id), ("text",), message, hint, level="warning")
                break


def _strange(book: Book, family: Family, record: tuple[str, str], text: str) -> list[str]:
    features = book.records.features.values()
    name = f"{record[0]}/{record[1]}"
    excused = {w for f in features if name in f.excuses for w in (*f.words, *f.not_words)}
    return [w for w in strangers(text, features, family.features) if w not in excused]


def _machines(book: Book, words: Words) -> Iterator[_Machine]:
    fitting = _fitting(book)
    for family in (group[0][0] for group in book.alike):
        modes = book.machines.modes[family.id]
        symptoms = (book.records.symptoms[id] for id in sorted(_possible(book, modes)))
        shown = frozenset(
            s.id
            for s in symptoms
            if not unmet(family.features, s.needs, s.lacks) and can_occur(s.tree, modes.__contains__, book.gates)
        )
        checks = frozenset(check for mode in modes for check in fitting.get(mode, ()))
        yield _Machine(family, modes, shown, checks, words.unfit(family.features))


def _possible(book: Book, modes: frozenset[str]) -> frozenset[str]:
    """Symptoms whose trees name one of the failure modes; all of them where a tree leads to a gate that is not there."""
    if any(gate not in book.gates for _, gate in book.transfers.sees):
        return frozenset(book.records.symptoms)
    return book.complaints_of(modes) & book.records.symptoms.keys()


def _fitting(book: Book) -> Mapping[str, set[str]]:
    """Failure mode -> the checks of which an outcome fits it."""
    found: dict[str, set[str]] = defaultdict(set)
    for check in book.records.checks.values():
        for mode in (mode for outcome in check.outcomes for fit in outcome.fits for mode in book.fits.get(fit, ())):
            found[mode].add(check.id)
    return found


def _spoken_of(book: Book, machine: _Machine) -> Iterator[tuple[tuple[str, str], Text]]:
    """Every text that is said of a machine, with the record that says it."""
    for id in machine.modes:
        for text in _of_mode(book.records.failure_modes[id], machine):
            yield ("failure-mode", id), text
    for id in machine.symptoms:
        for text in _of_symptom(book.records.symptoms[id]):
            yield ("symptom", id), text
    for id in machine.checks:
        for text in _of_check(book, book.records.checks[id], machine):
            yield ("check", id), text


def _given(texts: Mapping[Route, str | None]) -> Iterator[Text]:
    return ((route, text) for route, text in texts.items() if text)


def _of_mode(mode: FailureMode, machine: _Machine) -> Iterator[Text]:
    told: dict[Route, str | None] = {(n,): getattr(mode, n) for n in ("title", "comes_about", "effects", "if_left")}
    told |= {("remedy", name): getattr(mode.remedy, name) for name in ("advise", "how")}
    told |= {("signs", n): sign for n, sign in enumerate(mode.signs)}
    told |= {("looks_like", n, "tell"): x.tell for n, x in enumerate(mode.looks_like) if x.mode in machine.modes}
    return _given(told)


def _of_symptom(symptom: Symptom) -> Iterator[Text]:
    told: dict[Route, str | None] = {(n,): getattr(symptom, n) for n in ("title", "summary", "stop_why", "first")}
    return _given(told)


def _of_check(book: Book, check: Check, machine: _Machine) -> Iterator[Text]:
    if unmet(machine.family.features, check.needs, check.lacks):
        return
    if check.only_for and machine.symptoms.isdisjoint(check.only_for):
        return
    rows = [(n, o) for n, o in enumerate(check.outcomes) if o.otherwise or o.good or _can_show(book, o.fits, machine)]
    told: dict[Route, str | None] = {(name,): getattr(check, name) for name in ("title", "how", "expect")}
    told |= {("outcomes", n, name): getattr(o, name) for n, o in rows for name in ("says", "means")}
    yield from _given(told)


def _can_show(book: Book, fits: Sequence[str], machine: _Machine) -> bool:
    return any(not machine.modes.isdisjoint(book.fits.get(fit, ())) for fit in fits)
