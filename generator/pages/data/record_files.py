"""Every record as JSON that keeps to the schema of its kind, and the schemas: the book for other programs."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from generator.carried import carried
from generator.records.gates import INPUTS
from generator.records.kinds import KINDS, Kind
from generator.records.model import Records, TreeEvent, TreeNode, TreeTransfer
from generator.records.schema import schema
from generator.typed_json import to_json

INDEX = "open/records.json"
"Address of the list of all these files."
_SCHEMAS = "open/schema"


def schema_address(kind: Kind) -> str:
    """Where the schema of a kind stands, from the site's root."""
    return f"{_SCHEMAS}/{kind.schema}.schema.json"


def record_files(records: Records) -> Iterator[tuple[str, str]]:
    """Address and content of every record's file, of the list of them, and of the schemas.

    A list of records is one file, as it is among the records.
    """
    listed = []
    for kind in KINDS.values():
        for address, id, data in _of_kind(kind, records):
            listed.append({"kind": kind.name, "id": id, "file": address, "schema": schema_address(kind)})
            yield address, _text(data)
    yield INDEX, _text({"records": listed})
    for path in sorted(carried("schema").glob("*.schema.json")):
        yield f"{_SCHEMAS}/{path.name}", path.read_text(encoding="utf-8")


def _text(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n"


def _of_kind(kind: Kind, records: Records) -> Iterator[tuple[str, str, object]]:
    """Address, id and data of each file of a kind; the id of a list is the file's name."""
    held = getattr(records, kind.group)
    name = kind.place.removesuffix(".yaml")
    if kind.name == "shop":
        yield f"open/records/{name}.json", name, _data(kind, held)
    elif kind.is_list:
        yield f"open/records/{name}.json", name, {id: _data(kind, record) for id, record in held.items()}
    else:
        for id, record in held.items():
            yield f"open/records/{name}/{id}.json", id, _data(kind, record)


def _data(kind: Kind, record: Any) -> object:
    """A record's keys as its schema has them; what is as it is where nothing is said is left out."""
    if isinstance(record, tuple):
        return [to_json(kind.shape, entry) for entry in record]
    data = {key: value for key, value in to_json(kind.shape, record).items() if key != "id"}
    data |= {key: getattr(record, key) for key in schema(kind.schema).get("required", ()) if key not in data}
    if kind.name == "symptom":
        data["tree"] = _tree(record.tree)
    if kind.name == "assembly":
        data |= {group: _without_ids(data[group]) for group in ("parts", "settings") if group in data}
    return data


def _without_ids(items: Mapping[str, Mapping[str, object]]) -> dict[str, dict[str, object]]:
    return {id: {key: value for key, value in item.items() if key != "id"} for id, item in items.items()}


def _tree(node: TreeNode) -> object:
    if isinstance(node, TreeEvent):
        return node.id
    if isinstance(node, TreeTransfer):
        return {"see": node.see}
    named = {"id": node.id, "title": node.title, "at_least": node.k if node.kind == "at_least" else None}
    return {key: value for key, value in named.items() if value is not None} | {INPUTS[node.kind]: [_tree(below) for below in node.inputs]}
