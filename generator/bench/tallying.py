"""Finished jobs to tallies: what each row says in the book's ids, or why it says nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from generator.family_view import FamilyView
from generator.library import Library
from generator.records.ids import slug


@dataclass(frozen=True, slots=True)
class Job:
    """One finished job as a shop wrote it down."""

    line: int
    "In the file, from 1."
    date: str
    family: str
    complaint: str
    "Empty where the machine came for a service."
    cause: str
    "Empty where nothing was wrong; several joined by '+'."
    minutes: str = ""


@dataclass(frozen=True, slots=True)
class NotPlaced:
    """A row that the book cannot take."""

    line: int
    reason: str
    near: tuple[str, ...] = ()
    "The nearest ids."


@dataclass(frozen=True, slots=True)
class Counted:
    """A tally to be written."""

    family: str
    period: str
    "The year."
    machines: int
    found: Mapping[tuple[str, str], int]
    "Symptom id, or nothing, and failure mode id -> machines that had it."
    minutes: Mapping[str, tuple[float, ...]]
    "Failure mode id -> what each job took of which the minutes are known."


_LONGEST = 2000
"Minutes above which a clock was left running; the schema takes no more."


class _CannotPlace(Exception):
    def __init__(self, reason: str, near: Iterable[str] = ()) -> None:
        super().__init__(reason)
        self.near = tuple(near)


@dataclass(frozen=True, slots=True)
class _Placed:
    family: str
    period: str
    symptom: str
    modes: tuple[str, ...]
    minutes: float | None


def tallied(library: Library, jobs: Iterable[Job]) -> tuple[list[Counted], list[NotPlaced]]:
    """Tallies by family and year, and the rows that stand in none."""
    placed: dict[tuple[str, str], list[_Placed]] = {}
    lost: list[NotPlaced] = []
    for job in jobs:
        try:
            found = _place(library, job)
            placed.setdefault((found.family, found.period), []).append(found)
        except _CannotPlace as error:
            lost.append(NotPlaced(job.line, str(error), error.near))
    return [_counted(*key, rows) for key, rows in sorted(placed.items())], lost


def _place(library: Library, job: Job) -> _Placed:
    view = library.for_family(_family(library, job.family))
    symptom = _symptom(library, view, job.complaint)
    modes = tuple(_mode(library, view, cause) for cause in job.cause.split("+") if cause.strip())
    under = library.modes_under(view.symptoms[symptom].tree) if symptom else frozenset(modes)
    for mode in modes:
        if mode not in under:
            raise _CannotPlace(f"'{mode}' does not stand in the tree of '{symptom}'.", get_close_matches(mode, under, n=2))
    return _Placed(view.id, _year(job.date), symptom, modes, _minutes(job.minutes))


def _year(date: str) -> str:
    """The year of a date such as 2026-03-14, 14.3.2026 or 3/14/2026."""
    years = [word for word in "".join(c if c.isdigit() else " " for c in date).split() if len(word) == 4]
    if len(years) != 1:
        raise _CannotPlace(f"'{date}' is no date with its year: write it like 2026-03-14.")
    return years[0]


def _minutes(text: str) -> float | None:
    words = text.replace(",", ".").split()
    try:
        value = float(words[0]) if words else None
    except ValueError:
        return None
    return value if value and 0 < value <= _LONGEST else None


def _family(library: Library, said: str) -> str:
    families = library.records.families.values()
    names = [(f.id, (f.id, f.title, *f.models)) for f in families]
    return _known(said, names, "machine", "It counts once the family is in the book.")


def _symptom(library: Library, view: FamilyView, said: str) -> str:
    if not said.strip():
        return ""
    names = [(s.id, (s.id, s.title, *s.said_as)) for s in library.records.symptoms.values()]
    found = _known(said, names, "complaint", "")
    if found not in view.symptoms:
        raise _CannotPlace(f"{view.id} cannot have the complaint '{found}'.", get_close_matches(found, view.symptoms, n=2))
    return found


def _mode(library: Library, view: FamilyView, said: str) -> str:
    names = [(m.id, (m.id, m.title)) for m in library.records.failure_modes.values()]
    found = _known(said, names, "cause", "")
    if found not in view.failure_modes:
        near = get_close_matches(found, view.failure_modes, n=2)
        raise _CannotPlace(f"{view.id} cannot have '{found}': {view.not_here.get(found, 'it is not in its trees')}.", near)
    return found


def _known(said: str, names: Iterable[tuple[str, tuple[str, ...]]], what: str, otherwise: str) -> str:
    """The id that is meant by an id, a title or another of its names, however they are written."""
    known = {slug(word): id for id, words in reversed(list(names)) for word in words}
    wanted = slug(said)
    if wanted in known:
        return known[wanted]
    near = tuple(dict.fromkeys(known[word] for word in get_close_matches(wanted, known, n=3)))
    said = " ".join(said.split())
    raise _CannotPlace(f"'{said}' is no {what} of the book." if said else f"No {what} is given.", near or filter(None, (otherwise,)))


def _counted(family: str, period: str, rows: list[_Placed]) -> Counted:
    found = Counter((row.symptom, mode) for row in rows for mode in row.modes)
    return Counted(family, period, len(rows), dict(sorted(found.items())), dict(_took(rows)))


def _took(rows: list[_Placed]) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Minutes of jobs with one cause: where two were put right, nobody knows which took how long."""
    alone = [(row.modes[0], row.minutes) for row in rows if len(row.modes) == 1 and row.minutes]
    for mode in sorted({mode for mode, _ in alone}):
        yield mode, tuple(minutes for name, minutes in alone if name == mode and minutes)
