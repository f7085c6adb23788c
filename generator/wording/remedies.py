"""A remedy in words, with its links and its job sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.analysis.machine import Remedy
from generator.bench import Bench
from generator.family_view import FamilyView
from generator.wording import words
from generator.wording.links import Links


@dataclass(frozen=True, slots=True)
class Word:
    """A piece of a remedy's sentence."""

    text: str
    href: str = ""


@dataclass(frozen=True, slots=True)
class TrialView:
    """A remedy as a page shows it."""

    words: tuple[Word, ...]
    minutes: float
    sheet: str
    "Address of the job sheet, from the page; empty where the remedy has no sheet of its own."


def remedy_words(
    bench: Bench, view: FamilyView, remedy: Remedy, causes: Sequence[str], link: Links
) -> tuple[Word, ...]:
    """What is done, each piece of work once and leading to its own record; one sentence, so one capital."""
    once: dict[str, Word] = {}
    for word in _words(bench, view, remedy, causes, link):
        once.setdefault(word.text, word)
    return tuple(replace(word, text=_lower(word.text)) if n else word for n, word in enumerate(once.values()))


def in_one_line(said: Iterable[Word]) -> str:
    """The pieces of a remedy as a line of text."""
    return "; ".join(word.text for word in said)


def _words(
    bench: Bench, view: FamilyView, remedy: Remedy, causes: Sequence[str], link: Links
) -> Iterator[Word]:
    for part in remedy.renew:
        yield Word(f"Renew {_lower(view.title('part', part))}", link("part", part, view.home_of[part]))
    for setting in remedy.set:
        yield Word(f"Set {_lower(view.title('setting', setting))}", link("setting", setting, view.home_of[setting]))
    for mode_id in causes:
        spec = view.specs[mode_id]
        cleaned = [view.title("part", p) for p in spec.clean if f"part/{p}" in view.titles]
        if cleaned:
            yield Word(f"Clean or free {words.listed([_lower(t) for t in cleaned])}", link("failure-mode", mode_id) + "#remedy")
        if spec.advise:
            yield Word(first_sentence(spec.advise), link("failure-mode", mode_id) + "#remedy")


def first_sentence(text: str) -> str:
    """Enough of an advice to know it again."""
    flat = " ".join(words.plain(text).split())
    head, stop, _ = flat.partition(". ")
    return head.rstrip(".") if stop or flat.endswith(".") else flat


def _lower(title: str) -> str:
    """A title inside a sentence: V-belt and such keep their capitals."""
    return title if title[1:2].isupper() or title[1:2] == "-" else title[:1].lower() + title[1:]


def trial_view(
    bench: Bench,
    view: FamilyView,
    remedy: Remedy,
    causes: Sequence[str],
    minutes: float,
    link: Links,
) -> TrialView:
    """The remedy with the minutes that it takes from where the machine stands."""
    said = remedy_words(bench, view, remedy, causes, link)
    sheet = bench.sheet_of(view, remedy.id)
    return TrialView(said, minutes, link("jobs", sheet, view.id) if sheet else "")
