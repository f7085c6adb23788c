"""The contributor's reference, made from the schema."""

from __future__ import annotations

import json
from collections.abc import Iterator

from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.records.kinds import KINDS
from generator.records.schema import Schema, follow, schema

_ANOTHER_PLACE = "schema.json#"
"Of a `$ref`: what it leads to is listed with its own kind of record."


def pages(maker: Maker) -> Iterator[PageText]:
    """One page: how to contribute, and every key of every kind of record."""
    kinds = [_kind(name) for name in sorted({kind.schema for kind in KINDS.values()})]
    yield maker.page("contribute.html", "Contribute", "contribute.html", kinds=kinds, search="contribute record schema keys")


def _kind(name: str) -> dict[str, object]:
    whole = schema(name)
    return {
        "name": name,
        "title": whole["title"],
        "description": whole["description"],
        "rows": list(_rows(name, _body(name, whole), "", ())),
    }


def _body(name: str, whole: Schema) -> Schema:
    """The part of a schema that has the keys: of each item or entry, for lists and mappings."""
    entry = whole.get("items") or whole.get("additionalProperties")
    return follow(name, entry) if isinstance(entry, dict) else whole


def _rows(name: str, node: Schema, prefix: str, above: tuple[Schema, ...]) -> Iterator[dict[str, object]]:
    """Keys from the top down, nested ones with their path; what nests in itself is gone into once."""
    keys = node["properties"]
    if keys in above:
        return
    for key, value in keys.items():
        yield {
            "key": prefix + key,
            "required": key in node.get("required", ()),
            "description": value["description"],
            "example": json.dumps(value.get("examples", [""])[0], ensure_ascii=False),
        }
        for inner, mark in _inner(name, value):
            yield from _rows(name, inner, f"{prefix}{key}{mark}.", (*above, keys))


def _inner(name: str, value: Schema) -> Iterator[tuple[Schema, str]]:
    """The objects that a key holds, each with the mark of a list or a mapping of such objects."""
    whole = follow(name, value)
    for held, mark in ((whole, ""), (whole.get("items"), "[]"), (whole.get("additionalProperties"), ".<id>")):
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
