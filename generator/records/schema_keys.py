"""Every key of a kind of record with its path, read off the schema."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from generator.records.kinds import KINDS
from generator.records.schema import Schema, follow, schema

_ANOTHER_PLACE = "schema.json#"
"Of a `$ref`: what it leads to is listed with its own kind of record."


@dataclass(frozen=True, slots=True)
class Key:
    """One key that a record may have."""

    path: str
    "From the top of the record: `[]` after a list, `<id>` for a key that is an id."
    name: str
    "The key itself."
    required: bool
    "Whether it must be there."
    shape: Schema
    "Its schema, as written where the key stands."


@cache
def keys_of(name: str) -> tuple[Key, ...]:
    """The keys of a schema file, from the top down; what nests in itself is gone into once.

    >>> [key.path for key in keys_of("tally") if key.required]
    ['family', 'machines', 'found', 'found[].mode', 'found[].count', 'took[].mode', 'took[].minutes']
    """
    return tuple(_keys(name, body(name), "", ()))


@cache
def homes_of(name: str, key: str) -> tuple[str, ...]:
    """Where a key of this name belongs in such a record: the paths of what holds it, the shallowest first.

    >>> homes_of("assembly", "technique")
    ('parts.<id>.off', 'parts.<id>.on')
    """
    held = (found.path.rpartition(".")[0] for found in keys_of(name) if found.name == key)
    return tuple(sorted(set(filter(None, held)), key=lambda path: (path.count("."), path)))


@cache
def all_keys() -> frozenset[str]:
    """Every key that some record can have: a word among them is no misspelling."""
    return frozenset(key.name for kind in KINDS.values() for key in keys_of(kind.schema))


def body(name: str) -> Schema:
    """The part of a schema that has the keys: of each item or entry, for lists and mappings."""
    whole = schema(name)
    entry = whole.get("items") or whole.get("additionalProperties")
    return follow(name, entry) if isinstance(entry, dict) else whole


def _keys(name: str, node: Schema, prefix: str, above: tuple[Schema, ...]) -> Iterator[Key]:
    keys = node["properties"]
    if keys in above:
        return
    for key, value in keys.items():
        yield Key(prefix + key, key, key in node.get("required", ()), value)
        for inner, mark in _inner(name, value):
            yield from _keys(name, inner, f"{prefix}{key}{mark}.", (*above, keys))


def _inner(name: str, value: Schema) -> Iterator[tuple[Schema, str]]:
    """The objects that a key holds, each with the mark of a list or a mapping of such objects."""
    whole = follow(name, value)
    yield from ((found, "") for found in _objects(name, whole))
    for shape in (whole, *(follow(name, whole[branch]) for branch in ("then", "else") if branch in whole)):
        for held, mark in ((shape.get("items"), "[]"), (shape.get("additionalProperties"), ".<id>")):
            if isinstance(held, dict):
                yield from ((found, mark) for found in _objects(name, held))


def _objects(name: str, part: Schema) -> Iterator[Schema]:
    """The objects that a value may be: itself, or the branches of a choice."""
    if _ANOTHER_PLACE in part.get("$ref", ""):
        return
    whole = follow(name, part)
    if "properties" in whole:
        yield whole
    for branch in (b for b in ("then", "else") if b in whole):
        yield from _objects(name, whole[branch])
