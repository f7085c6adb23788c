"""The contributor's reference, made from the schema."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.records.schema import Schema

SCHEMA = Path(__file__).parent.parent.parent / "schema"


def pages(maker: Maker) -> Iterator[PageText]:
    """One page: how to contribute, and every key of every kind of record."""
    kinds = [_kind(path) for path in sorted(SCHEMA.glob("*.schema.json")) if not path.name.startswith("common")]
    yield maker.page("contribute.html", "Contribute", "contribute.html", kinds=kinds, search="contribute record schema keys")


def _kind(path: Path) -> dict[str, object]:
    schema = json.loads(path.read_text(encoding="utf-8"))
    return {
        "name": path.name.removesuffix(".schema.json"),
        "title": schema["title"],
        "description": schema["description"],
        "rows": list(_rows(_body(schema), schema, "")),
    }


def _body(schema: Schema) -> Schema:
    """The part of a schema that has the keys: of each item or entry, for lists and mappings."""
    if schema.get("type") == "array":
        items: Schema = schema["items"]
        return items
    entry = schema.get("additionalProperties")
    return entry if isinstance(entry, dict) else schema


def _rows(node: Schema, schema: Schema, prefix: str) -> Iterator[dict[str, object]]:
    """Keys from the top down, nested ones with their path."""
    for key, value in node.get("properties", {}).items():
        yield {
            "key": prefix + key,
            "required": key in node.get("required", ()),
            "description": value.get("description", ""),
            "example": json.dumps(value.get("examples", [""])[0], ensure_ascii=False),
        }
        inner, mark = _inner(value, schema)
        if inner and prefix.count(".") < 3:
            yield from _rows(inner, schema, f"{prefix}{key}{mark}.")


def _inner(value: Schema, schema: Schema) -> tuple[Schema | None, str]:
    """The object that a key holds, and the mark of a list or a mapping of such objects."""
    if "properties" in value:
        return value, ""
    for holder, mark in (("items", "[]"), ("additionalProperties", ".<id>")):
        held = value.get(holder)
        if isinstance(held, dict):
            target = held.get("$ref", "").removeprefix("#/$defs/")
            held = schema.get("$defs", {}).get(target, held)
            if "properties" in held and not target.endswith(("node", "gate", "changes")):
                return held, mark
    return None, ""
