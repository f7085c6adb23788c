"""What several commands share: opening the records, finding what was named, refusing in one sentence."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

import click

from generator.bench import Bench, Complaint
from generator.commands.folders import CACHE as CACHE
from generator.commands.folders import existing
from generator.commands.refusing import refuse as refuse
from generator.family_view import FamilyView
from generator.library import Library
from generator.store import load_kept

_READ = 40
"Names that a message lists at the most."


_Command = TypeVar("_Command", bound=Callable[..., Any])


def family_option(command: _Command) -> _Command:
    """`-f FAMILY`."""
    return click.option("-f", "--family", required=True, metavar="FAMILY", help="Which machine family, by its id.")(command)


def json_option(command: _Command) -> _Command:
    """`--json`."""
    return click.option("--json", "as_json", is_flag=True, help="Give the answer as data.")(command)


def open_bench(folders: Sequence[Path]) -> Bench:
    """The records of the content folders, ready to be asked. Refuses where they have errors."""
    there = tuple(existing(tuple(folders)))
    records, errors = load_kept(there, CACHE)
    if errors:
        refuse("The records have errors; `check` explains each.\n" + "\n".join(errors))
    return Bench(Library(records), CACHE)


def known(word: str, names: Iterable[str], what: str) -> str:
    """The name meant by a word, whether its own words are joined by hyphens or underscores. Refuses with the nearest."""
    names = sorted(names)
    joined = (word, word.replace("_", "-"), word.replace("-", "_"))
    found = next((name for name in joined if name in names), None)
    if found is None:
        near = get_close_matches(word, names, n=1)
        mend = f"Did you mean '{near[0]}'?" if near else f"Known: {_some(names)}."
        refuse(f"'{word}' is no {what}. {mend}")
    return found


def _some(names: Sequence[str]) -> str:
    """The names, as many as are read at a glance."""
    if not names:
        return "none"
    more = f" and {len(names) - _READ} more" if len(names) > _READ else ""
    return ", ".join(names[:_READ]) + more


def view_of(bench: Bench, family: str) -> FamilyView:
    """The view of a family named on the command line."""
    return bench.library.for_family(known(family, bench.library.records.families, "family"))


def complaint_of(bench: Bench, family: str, symptom: str) -> Complaint:
    """A symptom of a family, both named on the command line."""
    view = view_of(bench, family)
    symptom = known(symptom, bench.library.records.symptoms, "symptom")
    if symptom not in view.symptoms:
        title = bench.library.records.symptoms[symptom].title
        refuse(f"{view.name} cannot have '{title}'. It can have: {', '.join(sorted(view.symptoms))}.")
    return bench.complaint(view, symptom)


def print_json(value: object) -> None:
    """JSON as a person can read it too."""
    click.echo(json.dumps(value, indent=2, ensure_ascii=False))
