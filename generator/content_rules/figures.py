"""A rule about figures: one stands once, in its setting, and text refers to it."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import cache

from generator.records.finding import Finding, quote
from generator.records.model import Check, Setting, Target
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.reads import BUILT, SEATS, Hears, Reads, together
from generator.records.rules.registry import rule
from generator.standards.quantity import Quantity

_FIGURE = re.compile(r"(-?\d+(?:\.\d+)?)(?: to (-?\d+(?:\.\d+)?))? ?([a-zA-Z°]+)")
"A number, or a range, and the word behind it."


def _hears(book: Book) -> Hears:
    return lambda text: [found[0] for found in _FIGURE.finditer(text)]


READS = Reads(
    together(BUILT, SEATS, {"assembly": ("settings.*.proved_by", "settings.*.target"), "check": ("figures",)}),
    {"check": ("how", "expect", "outcomes.*.says"), "failure-mode": ("signs.*",)},
    _hears,
)


@rule(
    "A figure stands once, in its setting: a check that reads it and a failure mode of it name no number of their own.",
    reads=READS,
)
def figure_stands_once(book: Book) -> Iterator[Finding]:
    told: set[tuple[tuple[str, str], Route]] = set()
    looked_at: set[tuple[str, str | None, Target | None]] = set()
    checks = _by_figure(book)
    for _, built in book.built:
        for id, owners in built.settings.items():
            setting = owners[0].value
            said = (id, setting.proved_by, setting.target)
            for record, route, text in _readers(book, setting, checks) if said not in looked_at else ():
                figure = _own_figure(text, setting)
                if figure and (record, route) not in told:
                    told.add((record, route))
                    message = f"{quote(figure)} is the figure of the setting {quote(id)}."
                    hint = "Say `its figure` instead: each family's pages put in their own."
                    yield book.finding(record, route, message, hint, level="warning")
            looked_at.add(said)


def _by_figure(book: Book) -> Mapping[str, list[str]]:
    """Setting -> the checks that say they read it."""
    found: dict[str, list[str]] = defaultdict(list)
    for check in book.records.checks.values():
        for setting in check.figures:
            found[setting].append(check.id)
    return found


def _readers(book: Book, setting: Setting, by_figure: Mapping[str, list[str]]) -> Iterator[tuple[tuple[str, str], Route, str]]:
    """Record, place and text of all that speaks of a setting."""
    for id in {*filter(None, [setting.proved_by]), *by_figure.get(setting.id, ())} & book.records.checks.keys():
        for route, text in _of_check(book.records.checks[id]).items():
            yield ("check", id), route, text
    for mode in book.machines.on("setting", setting.id):
        for number, sign in enumerate(mode.signs):
            yield ("failure-mode", mode.id), ("signs", number), sign


def _of_check(check: Check) -> Mapping[Route, str]:
    told: dict[Route, str | None] = {("how",): check.how, ("expect",): check.expect}
    for number, outcome in enumerate(check.outcomes):
        told["outcomes", number, "says"] = outcome.says
    return {route: text for route, text in told.items() if text}


def _own_figure(text: str, setting: Setting) -> str | None:
    """The first figure of a text that is an end of the setting's target."""
    target = setting.target
    ends = {e for e in (_parsed(w) for w in (target.low, target.high) if w) if e} if target else set()
    for found in _FIGURE.finditer(text) if ends else ():
        if any(_parsed(f"{number} {found[3]}") in ends for number in found.group(1, 2) if number):
            return found[0]
    return None


@cache
def _parsed(written: str) -> Quantity | None:
    try:
        return Quantity.parse(written)
    except ValueError:
        return None
