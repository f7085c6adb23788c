"""Rules about figures, targets and prices."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, quote
from generator.records.model import price_band
from generator.records.nested import match
from generator.records.node import Route
from generator.records.rules.book import Book
from generator.records.rules.registry import rule
from generator.standards.quantity import Quantity

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


@rule("Both ends of a target have the same unit.", "assembly")
def target_in_one_unit(book: Book) -> Iterator[Finding]:
    for record, route, low, high in _targets(book):
        if low.unit != high.unit:
            message = f"The target goes from {low} to {high}, in two units."
            yield book.finding(record, (*route, "high"), message, f"Write both in {low.unit}.")


@rule("A target's low end is not above its high end.", "assembly")
def target_low_to_high(book: Book) -> Iterator[Finding]:
    for record, route, low, high in _targets(book):
        if low.unit == high.unit and low.value > high.value:
            message = f"The target's low end, {low}, is above its high end, {high}."
            yield book.finding(record, (*route, "low"), message, "Change them round.")


@rule("A price band goes from low to high.")
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


@rule("A measure of a family says where it comes from.", "family")
def figure_has_source(book: Book) -> Iterator[Finding]:
    for id, family in book.records.families.items():
        for name, figure in family.figures.items():
            if figure.source is None and _is_quantity(figure.value):
                message = f"{quote(name)} gives a measure without its source."
                hint = f"Write {{value: {figure.value}, source: ...}} with an id of sources.yaml."
                where = ("figures", name)
                yield book.finding(("family", id), where, message, hint, level="warning")


def _is_quantity(value: object) -> bool:
    try:
        return isinstance(value, str) and bool(Quantity.parse(value).unit)
    except ValueError:
        return False
