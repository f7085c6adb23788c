"""The contributor's reference, made from the schema."""

from __future__ import annotations

import json

from generator.pages.learn.forms import FORMS, letter
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.pages.piece import Piece
from generator.records.key_values import allowed, taken
from generator.records.kinds import KINDS
from generator.records.schema import follow, schema
from generator.records.schema_keys import Key, keys_of

ADDRESS = "contribute.html"
_SCRIPTS = ("assets/handwheel/js/learn/keys.js",)


def piece(maker: Maker) -> Piece:
    """One page: how to contribute, every key of every kind of record, and the words that keys take by id."""
    return maker.each({ADDRESS: maker}, lambda _: _page)


def _page(maker: Maker) -> PageText:
    return maker.page(
        ADDRESS,
        "Contribute",
        "contribute.html",
        scripts=_SCRIPTS,
        wide=True,
        search="contribute record schema keys",
        kinds=[_kind(name) for name in sorted({kind.schema for kind in KINDS.values()})],
        letters=[(title, letter(title)) for title in FORMS],
        features=maker.records.features,
        figures=maker.records.figures,
        positions=maker.records.positions,
    )


def _kind(name: str) -> dict[str, object]:
    whole = schema(name)
    return {
        "name": name,
        "title": whole["title"],
        "description": whole["description"],
        "rows": [_row(name, key) for key in keys_of(name)],
    }


def _row(name: str, key: Key) -> dict[str, object]:
    whole = follow(name, key.shape)
    return {
        "key": key.path,
        "anchor": f"{name}.{key.path}".replace("<id>.", "").replace("[]", ""),
        "required": key.required,
        "description": key.shape["description"],
        "takes": taken(name, key.path, key.shape),
        "allowed": allowed(name, key.shape),
        "default": _written(whole["default"]) if "default" in whole else "",
        "example": _written(key.shape["examples"][0]) if "examples" in key.shape else "",
    }


def _written(value: object) -> str:
    """A value as a record may have it: YAML reads what JSON writes."""
    return json.dumps(value, ensure_ascii=False)
