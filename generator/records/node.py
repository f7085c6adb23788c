"""A YAML value that knows where it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from generator.records.position import Position

Scalar = str | int | float | bool | None
Route = tuple[str | int, ...]
"Keys and list indices from the top of a record to a value."


_Found = tuple[Mapping[Route, Position], Mapping[Route, Position]]


@dataclass(frozen=True, slots=True)
class Node:
    """A scalar, a mapping or a list of nodes."""

    value: Scalar | dict[str, Node] | list[Node]
    "The plain value, or the nodes below."
    at: Position
    "Where the value begins."
    keys: Mapping[str, Position] = field(default_factory=dict)
    "Of a mapping: where each key stands."
    size: int = 1
    "Values in it, itself included, with everything that aliases repeat."
    depth: int = 1
    "Levels in it, itself included."

    def children(self) -> list[tuple[str | int, Node]]:
        """Key or index and node, in order; empty for a scalar."""
        if isinstance(self.value, dict):
            return list(self.value.items())
        return list(enumerate(self.value)) if isinstance(self.value, list) else []


class Places:
    """Where the values and keys of a record stand."""

    def __init__(self, values: Mapping[Route, Position], keys: Mapping[Route, Position]) -> None:
        self._find: Callable[[], _Found] = lambda: (values, keys)
        self.file: Path | None = None
        "The one file that they all stand in, where that is known before they are."

    @classmethod
    def later(cls, find: Callable[[], Places], file: Path) -> Places:
        """Places in a file that are found out when the first one is asked for."""
        places = cls({}, {})
        places._find, places.file = lambda: find()._found, file
        return places

    @cached_property
    def _found(self) -> _Found:
        return self._find()

    @property
    def values(self) -> Mapping[Route, Position]:
        """Route to a value -> where the value begins."""
        return self._found[0]

    @property
    def keys(self) -> Mapping[Route, Position]:
        """Route to a value in a mapping -> where its key stands."""
        return self._found[1]

    def of(self, route: Route, key: bool = False) -> Position:
        """Where a value (or its key) stands, or the nearest one above it that has a place."""
        found = self.keys.get(route) if key else None
        while found is None and route not in self.values:
            route = route[:-1]
        return found or self.values[route]


def plain(node: Node) -> object:
    """The data without positions."""
    if isinstance(node.value, dict):
        return {key: plain(below) for key, below in node.value.items()}
    return [plain(n) for n in node.value] if isinstance(node.value, list) else node.value


def places(node: Node) -> Places:
    """The positions without data."""
    values: dict[Route, Position] = {}
    keys: dict[Route, Position] = {}
    _place(node, (), values, keys)
    return Places(values, keys)


def _place(
    node: Node, route: Route, values: dict[Route, Position], keys: dict[Route, Position]
) -> None:
    values[route] = node.at
    for key, below in node.children():
        if isinstance(key, str):
            keys[*route, key] = node.keys[key]
        _place(below, (*route, key), values, keys)
