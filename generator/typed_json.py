"""Frozen dataclasses as plain JSON and back, by their types: what does not fit its type is refused."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

T = TypeVar("T")
Coder = Callable[[Any], Any]

_TAG = "is"
"Key that names the class where several are possible."
_SCALARS: dict[Any, tuple[type, ...]] = {str: (str,), int: (int,), float: (int, float), bool: (bool,), NoneType: (NoneType,)}


def to_json(shape: type[T], value: T) -> Any:
    """Plain data for a value; fields with their default are left out.

    >>> from generator.analysis.machine import Remedy
    >>> to_json(Remedy, Remedy("set:gap", set=("gap",)))
    {'id': 'set:gap', 'set': ['gap']}
    """
    return _writer(cast(Any, shape))(value)


def from_json(shape: type[T], data: Any) -> T:
    """The value of plain data. Raises ValueError, KeyError or TypeError where it is no such value."""
    value: T = _reader(cast(Any, shape))(data)
    return value


def _classes(hint: Any) -> list[Any]:
    """The dataclasses among the alternatives of a union."""
    return [a for a in get_args(hint) if is_dataclass(a)]


def _is_union(hint: Any) -> bool:
    return get_origin(hint) in (Union, UnionType)


def _default(field: Field[Any]) -> Any:
    """What a field is where nothing says otherwise; MISSING, which equals nothing else, where it must be given."""
    return field.default if field.default_factory is MISSING else field.default_factory()


@cache
def _writer(hint: Any) -> Coder:
    if is_dataclass(hint):
        return _object_writer(hint)
    arguments = get_args(hint)
    if get_origin(hint) is tuple:
        entry = _writer(arguments[0])
        return list if entry is _same else lambda value: [entry(one) for one in value]
    if get_origin(hint) is Mapping:
        below = _writer(arguments[1])
        return lambda value: {key: below(one) for key, one in value.items()}
    return _union_writer(hint) if _is_union(hint) and _classes(hint) else _same


def _same(value: Any) -> Any:
    return value


def _object_writer(shape: Any) -> Coder:
    hints = get_type_hints(shape)
    defaults = {f.name: _default(f) for f in fields(shape)}
    writers: dict[str, Coder] = {}  # made when first needed: a class may hold itself

    def write(value: Any) -> dict[str, Any]:
        told = {name: one for name, default in defaults.items() if (one := getattr(value, name)) != default}
        for name in told.keys() - writers.keys():
            writers[name] = _writer(hints[name])
        return {name: writers[name](one) for name, one in told.items()}

    return write


def _union_writer(hint: Any) -> Coder:
    tagged = len(_classes(hint)) > 1

    def write(value: Any) -> Any:
        if not is_dataclass(value):
            return value
        data = _writer(cast(Any, type(value)))(value)
        return {_TAG: type(value).__name__, **data} if tagged else data

    return write


@cache
def _reader(hint: Any) -> Coder:
    if hint in _SCALARS:
        return _scalar_reader(_SCALARS[hint])
    if is_dataclass(hint):
        return _object_reader(hint)
    if hint is object:
        return _same
    arguments = get_args(hint)
    if get_origin(hint) is tuple and arguments[1:] == (...,):
        return _tuple_reader(arguments[0])
    if get_origin(hint) is Mapping and arguments[0] is str:
        return _mapping_reader(_reader(arguments[1]))
    if get_origin(hint) is Literal:
        return _word_reader(arguments)
    if _is_union(hint):
        return _union_reader(hint)
    raise TypeError(f"{hint} cannot be kept.")


def _scalar_reader(types: tuple[type, ...]) -> Coder:
    def read(data: Any) -> Any:
        if type(data) not in types:
            raise ValueError("another kind of value")
        return data

    return read


def _word_reader(words: tuple[str, ...]) -> Coder:
    def read(data: Any) -> Any:
        if data not in words:
            raise ValueError("another word")
        return data

    return read


def _object_reader(shape: Any) -> Coder:
    hints = get_type_hints(shape)
    readers: dict[str, Coder] = {}  # made when first needed: a class may hold itself

    def read(data: Any) -> Any:
        for name in _entries(data).keys() - readers.keys():
            readers[name] = _reader(hints[name])
        return shape(**{name: readers[name](one) for name, one in data.items()})

    return read


def _entries(data: Any) -> dict[str, Any]:
    if type(data) is not dict:
        raise ValueError("no mapping")
    return data


def _tuple_reader(hint: Any) -> Coder:
    entry = _reader(hint)

    def read(data: Any) -> Any:
        if type(data) is not list:
            raise ValueError("no list")
        return tuple(entry(one) for one in data)

    return read


def _mapping_reader(entry: Coder) -> Coder:
    def read(data: Any) -> Any:
        return {key: entry(one) for key, one in _entries(data).items()}

    return read


def _union_reader(hint: Any) -> Coder:
    """By shape: a mapping is a class, named where there are several; the rest is a scalar of the union."""
    classes = {c.__name__: c for c in _classes(hint)}
    scalar = _scalar_reader(tuple(t for a in get_args(hint) for t in _SCALARS.get(a, ())))
    others = [a for a in get_args(hint) if a is not NoneType and a not in _SCALARS and not is_dataclass(a)]

    def read(data: Any) -> Any:
        if isinstance(data, list) and others:
            return _reader(others[0])(data)
        if not isinstance(data, dict) or not classes:
            return scalar(data)
        if len(classes) == 1:
            return _reader(*classes.values())(data)
        rest = {name: one for name, one in data.items() if name != _TAG}
        return _reader(classes[data[_TAG]])(rest)

    return read
