"""A short print of a value, the same for equal values in every run: by it, what was made of a value is known again."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

_PLAIN = frozenset((str, int, float, bool, type(None)))


class Prints:
    """Prints of frozen data. Each record is gone through once, however many values hold it."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[object, str]] = {}
        self._names: dict[type, tuple[str, ...]] = {}

    def of(self, value: object) -> str:
        """32 signs of the SHA-256 of all that the value holds; mappings and tuples in their order, sets in that of their members.

        >>> Prints().of({"a": frozenset("bc")}) == Prints().of({"a": frozenset("cb")})
        True
        >>> Prints().of({"a": 1, "b": 2}) == Prints().of({"b": 2, "a": 1})
        False
        """
        told: list[str] = []
        self._tell(value, told)
        return hashlib.sha256("".join(told).encode(errors="surrogatepass")).hexdigest()[:32]

    def _tell(self, value: Any, told: list[str]) -> None:
        if type(value) in _PLAIN:
            told.append(f"{value!r},")
        elif isinstance(value, (tuple, list)):
            told.append("(")
            for held in value:
                self._tell(held, told)
            told.append(")")
        elif is_dataclass(value):
            told.append(f"<{self._of_record(value)}>")
        elif isinstance(value, Mapping):
            told.append("{")
            for key, held in value.items():
                self._tell(key, told)
                self._tell(held, told)
            told.append("}")
        elif isinstance(value, (set, frozenset)):
            told.append(f"[{sorted(self.of(held) for held in value)}]")
        else:
            told.append(f"{type(value).__name__} {value!r},")

    def _of_record(self, record: Any) -> str:
        """Kept with the record itself, so that no other can come to stand where it stood."""
        known = self._known.get(id(record))
        if known is None:
            held = tuple(getattr(record, name) for name in self._names_of(type(record)))
            known = self._known[id(record)] = record, type(record).__name__ + self.of(held)
        return known[1]

    def _names_of(self, kind: Any) -> tuple[str, ...]:
        if kind not in self._names:
            self._names[kind] = tuple(field.name for field in fields(kind))
        return self._names[kind]
