"""Every record that was read to its frozen class of `model`."""

from __future__ import annotations

from typing import Any, cast

from generator.records.kinds import KINDS
from generator.records.model import Records, Shop
from generator.records.read import Content, Record
from generator.records.shapes import build


def build_all(content: Content) -> Records:
    """Every record that the schema has nothing against."""
    groups: dict[str, dict[str, Any]] = {
        kind.group: {id: _build_record(r) for id, r in content.records[name].items() if r.sound}
        for name, kind in KINDS.items()
    }
    shop = groups.pop("shop").get("shop", Shop())
    places = {(r.kind, r.id): r.places for by_id in content.records.values() for r in by_id.values()}
    return Records(**groups, shop=shop, pictures=content.pictures, places=places)


def _build_record(record: Record) -> Any:
    shape = KINDS[record.kind].shape
    if record.kind == "fasteners":
        return tuple(build(shape, note) for note in cast(list[Any], record.data))
    return build(shape, cast(dict[str, Any], record.data), record.id)
