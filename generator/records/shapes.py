"""Data that the schema has nothing against to the frozen classes of `model`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache
from types import UnionType
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from generator.records.gates import INPUTS, kinds_of
from generator.records.model import (
    AssemblyUse,
    Figure,
    Found,
    TreeEvent,
    TreeGate,
    TreeNode,
    TreeTransfer,
)

T = TypeVar("T")
Reader = Callable[[Any], Any]


def build(shape: Callable[..., T], data: Mapping[str, Any], id: str | None = None) -> T:
    """One object of a class of `model` from data that its schema has nothing against."""
    readers = _readers(shape)
    given = {name: readers[name](value) for name, value in data.items()}
    return shape(id=id, **given) if "id" in readers else shape(**given)


def with_changes(value: T, changes: Mapping[str, Any]) -> T:
    """A part or setting with the keys that one family's record lays over it; mappings merge.

    >>> from generator.records.model import Move, Part
    >>> with_changes(Part("gear", "Gear", off=Move(minutes=6)), {"off": {"position": "upright"}}).off.minutes
    6
    """
    readers = _readers(cast(Any, type(value)))
    new: dict[str, Any] = {}
    for name, change in changes.items():
        old = getattr(value, name)
        merges = is_dataclass(old) and isinstance(change, Mapping)
        new[name] = with_changes(old, change) if merges else readers[name](change)
    changed: T = replace(cast(Any, value), **new)
    return changed


@cache
def _readers(shape: Any) -> dict[str, Reader]:
    """How to read each field of a class, by the field's type."""
    hints = get_type_hints(shape)
    return {field.name: _reader(hints[field.name]) for field in fields(shape)}


def _reader(hint: Any) -> Reader:
    if hint in _SPECIAL:
        return _SPECIAL[hint]
    if is_dataclass(hint):
        return lambda data: build(cast(Any, hint), data)
    arguments = [a for a in get_args(hint) if a is not type(None)]
    if get_origin(hint) in (Union, UnionType):
        return _reader(arguments[0]) if len(arguments) == 1 else _same
    if get_origin(hint) is tuple:
        return _tuple_reader(_reader(arguments[0]))
    return _mapping_reader(arguments[1]) if get_origin(hint) is Mapping else _same


def _same(data: Any) -> Any:
    return data


def _tuple_reader(entry: Reader) -> Reader:
    return lambda data: tuple(entry(value) for value in data)


def _mapping_reader(hint: Any) -> Reader:
    if is_dataclass(hint) and hint not in _SPECIAL:
        return lambda data: {key: build(cast(Any, hint), value, key) for key, value in data.items()}
    entry = _reader(hint)
    return lambda data: {key: entry(value) for key, value in data.items()}


def _use(data: str | Mapping[str, Any]) -> AssemblyUse:
    return AssemblyUse(data) if isinstance(data, str) else build(AssemblyUse, data)


def _figure(data: float | str | Mapping[str, Any]) -> Figure:
    return build(Figure, data) if isinstance(data, Mapping) else Figure(data)


def _found(data: Mapping[str, int] | list[Mapping[str, Any]]) -> tuple[Found, ...]:
    if isinstance(data, Mapping):
        return tuple(Found(mode, count) for mode, count in data.items())
    return tuple(build(Found, entry) for entry in data)


def _gate(data: Mapping[str, Any]) -> TreeGate:
    (kind,) = kinds_of(dict(data))
    inputs = tuple(_tree_node(node) for node in data[INPUTS[kind]])
    k = {"any": 1, "all": len(inputs)}.get(kind) or int(data["at_least"])
    return TreeGate(data.get("id"), data.get("title"), cast(Literal["any", "all", "at_least"], kind), inputs, k)


def _tree_node(data: str | Mapping[str, Any]) -> TreeNode:
    if isinstance(data, str):
        return TreeEvent(data)
    return TreeTransfer(data["see"]) if "see" in data else _gate(data)


_SPECIAL: dict[Any, Reader] = {
    AssemblyUse: _use,
    Figure: _figure,
    TreeGate: _gate,
    tuple[Found, ...]: _found,
    str: str,
    int: int,
}
"Types whose data can have more than one form; a period may be written as a number."
