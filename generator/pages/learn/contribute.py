"""The contributor's reference, made from the schema."""

from __future__ import annotations

import json
from collections.abc import Iterator

from generator.pages.learn.forms import FORMS, letter
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.records.kinds import KINDS
from generator.records.schema import schema
from generator.records.schema_keys import Key, keys_of


def pages(maker: Maker) -> Iterator[PageText]:
    """One page: how to contribute, and every key of every kind of record."""
    kinds = [_kind(name) for name in sorted({kind.schema for kind in KINDS.values()})]
    letters = [(title, letter(title)) for title in FORMS]
    words = "contribute record schema keys"
    yield maker.page("contribute.html", "Contribute", "contribute.html", kinds=kinds, letters=letters, search=words)


def _kind(name: str) -> dict[str, object]:
    whole = schema(name)
    return {
        "name": name,
        "title": whole["title"],
        "description": whole["description"],
        "rows": [_row(key) for key in keys_of(name)],
    }


def _row(key: Key) -> dict[str, object]:
    return {
        "key": key.path,
        "required": key.required,
        "description": key.shape["description"],
        "example": json.dumps(key.shape.get("examples", [""])[0], ensure_ascii=False),
    }
