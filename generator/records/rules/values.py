"""Rules about figures, targets and prices."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.model import price_band
from generator.records.nested import match
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.registry import rule
from generator.standards.quantity import NUMBER, UNITS, Quantity

Found = Iterator[tuple[tuple[str, str], Route, object]]


def _values(book: Book, kind: str, *pattern: str) -> Found:
    """What a pattern finds in the sound records of one kind."""
    for id, record in book.content.records[kind].items():
        for route, _, value in match(record.data, pattern) if record.sound else ():
            yield (kind, id), route, value


def _targets(book: Book) -> Iterator[tuple[tuple[str, str], Route, Quantity, Quantity]]:
    """Targets with both ends: the assemblies', and what families lay over them."""
    yield from _ends(_values(book, "assembly", "settings", "*", "target"))
    yield from _ends(_values(book, "family", "assemblies", "*", "settings", "*", "target"))


def _ends(found: Found) -> Iterator[tuple[tuple[str, str], Route, Quantity, Quantity]]:
    for record, route, target in found:
        if isinstance(target, dict) and "low" in target and "high" in target:
            yield record, route, Quantity.parse(target["low"]), Quantity.parse(target["high"])


@rule("Both ends of a target have the same unit.", "assembly", alone=True)
def target_in_one_unit(book: Book) -> Iterator[Finding]:
    for record, route, low, high in _targets(book):
        if low.unit != high.unit:
            message = f"The target goes from {low} to {high}, in two units."
            yield book.finding(record, (*route, "high"), message, f"Write both in {low.unit}.")


@rule("A target's low end is not above its high end.", "assembly", alone=True)
def target_low_to_high(book: Book) -> Iterator[Finding]:
    for record, route, low, high in _targets(book):
        if low.unit == high.unit and low.value > high.value:
            message = f"The target's low end, {low}, is above its high end, {high}."
            yield book.finding(record, (*route, "low"), message, "Change them round.")


@rule("A price band goes from low to high.", alone=True)
def price_low_to_high(book: Book) -> Iterator[Finding]:
    for found in (
        _values(book, "assembly", "parts", "*", "price"),
        _values(book, "family", "assemblies", "*", "parts", "*", "price"),
        _values(book, "shop", "prices", "*"),
    ):
        for record, route, price in found:
            low, high = price_band(str(price))
            if low > high:
                message = f"The price band {price} begins above its end."
                hint = f"Write {'..'.join(reversed(str(price).split('..')))}."
                yield book.finding(record, route, message, hint)


@rule("A measure of a family says where it comes from.", "family", alone=True)
def figure_has_source(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for name, figure in family.figures.items():
            if figure.source is None and _is_quantity(figure.value):
                message = f"{quote(name)} gives a measure without its source."
                hint = f"Write {{value: {figure.value}, source: ...}} with an id of sources.yaml."
                where = ("figures", name)
                yield book.finding(("family", id), where, message, hint, level="warning")


@rule("A figure of a family is one of the list, where there is a list.", "family", alone=True)
def figure_is_listed(book: Book) -> Iterator[Finding]:
    listed = book.defined["figure"]
    if not listed or "figure" in {*book.content.blind, *book.content.unread}:
        return
    for id, family in book.records.families.items():
        for name in family.figures.keys() - listed:
            message = f"{quote(name)} is no figure of figures.yaml."
            hint = did_you_mean(name, listed, "Mend the name, or add it there with `title:`, `measures:` and `means:`.")
            yield book.finding(("family", id), ("figures", name), message, hint, key=True)


@rule("A figure is measured in what the list says.", "family", alone=True)
def figure_in_its_measure(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for name, figure in family.figures.items():
            kind = book.records.figures.get(name)
            if kind and not any(_measures(figure.value, dimension) for dimension in kind.measures):
                wish = " or ".join(kind.measures)
                message = f"{quote(name)} is {quote(figure.value)}, and {quote(kind.title)} is given as {wish}."
                units = [unit for unit, (of, _) in UNITS.items() if of in kind.measures]
                hint = f"Write a number and one of {', '.join(units)}." if units else f"Write a {kind.measures[0].removesuffix('s')}."
                yield book.finding(("family", id), ("figures", name), message, hint)


def _measures(value: object, dimension: str) -> bool:
    """Whether a value, or both ends of one written '5 to 7 mm', is of a dimension."""
    if dimension == "words":
        return isinstance(value, str)
    ends = str(value).split(" to ")
    if dimension == "number":
        return all(re.fullmatch(NUMBER, end) for end in ends)
    try:
        high = Quantity.parse(ends[-1])
        return high.dimension == dimension and all(re.fullmatch(NUMBER, end) for end in ends[:-1])
    except ValueError:
        return False


def _is_quantity(value: object) -> bool:
    try:
        return isinstance(value, str) and bool(Quantity.parse(value).unit)
    except ValueError:
        return False
