"""Small changes of records, anywhere in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import partial
from random import Random
from typing import Any

from generator.records.model import Records

_NOT_TOLD = ("places", "pictures", "own")
Route = tuple[str | int, ...]


def edited(records: Records, chance: Random) -> tuple[Records, str]:
    """The records with one small change, and what was changed: a text, a number, a yes, an order, an entry left out or under another name."""
    routes = {f.name: partial(_routes, getattr(records, f.name), (f.name,)) for f in fields(records) if f.name not in _NOT_TOLD}
    kind = chance.choice([name for name in sorted(routes) if any(routes[name]())])
    route = chance.choice(list(routes[kind]()))
    return _with(records, route, chance), " / ".join(map(str, route))


def _routes(value: Any, way: Route) -> Iterator[Route]:
    """The ways to all that can be changed in a value."""
    if way and (isinstance(value, (str, bool, int, float, tuple)) or (isinstance(value, Mapping) and value)):
        yield way
    for key, held in _held(value):
        yield from _routes(held, (*way, key))


def _held(value: Any) -> list[tuple[Any, Any]]:
    if is_dataclass(value):
        return [(f.name, getattr(value, f.name)) for f in fields(value)]
    if isinstance(value, Mapping):
        return list(value.items())
    return list(enumerate(value)) if isinstance(value, tuple) else []


def _with(value: Any, route: Route, chance: Random) -> Any:
    if not route:
        return _changed(value, chance)
    step: Any = route[0]
    if is_dataclass(value):
        return replace(value, **{step: _with(getattr(value, step), route[1:], chance)})  # type: ignore[type-var]
    if isinstance(value, Mapping):
        return {key: _with(held, route[1:], chance) if key == step else held for key, held in value.items()}
    return tuple(_with(held, route[1:], chance) if n == step else held for n, held in enumerate(value))


def _changed(value: Any, chance: Random) -> Any:
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return f"{value} anew" if " " in value or not value.islower() else f"{value}-anew"
    if isinstance(value, (int, float)):
        return type(value)(value * 2 + 1)
    if isinstance(value, tuple):
        return value[:-1] if value and chance.random() < 0.5 else value[::-1]
    one = chance.choice(list(value))
    if chance.random() < 0.5:
        return {key: held for key, held in value.items() if key != one}
    return dict(sorted((f"{key}-anew", _renamed(held)) if key == one else (key, held) for key, held in value.items()))


def _renamed(record: Any) -> Any:
    return replace(record, id=f"{record.id}-anew") if is_dataclass(record) and hasattr(record, "id") else record  # type: ignore[type-var]
