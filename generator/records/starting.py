"""A commented starting record, made from the schema's own descriptions and examples."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from copy import deepcopy
from typing import Any

from generator.records.block import block
from generator.records.compose import EXAMPLE
from generator.records.explain import shown
from generator.records.kinds import Kind
from generator.records.node import Places
from generator.records.read import Record
from generator.records.references import Reference, references_of
from generator.records.schema import Schema, follow, schema

_ALSO = {
    "assembly": ("parts",),
    "failure-mode": ("part", "source", "signs"),
    "check": ("reach",),
    "symptom": ("group",),
}
"Kind -> keys that the schema leaves open and a rule or a reader wants."


def starting_record(kind: Kind, id: str, known: Mapping[str, frozenset[str]]) -> str:
    """The text of a new file with one record; `known` are the ids there are, by kind.

    Keys that must be there hold the schema's examples, marked so that `check` asks for one's own; the rest
    stand as comments. A name in an example that does not exist is replaced by one that does.
    """
    shape = schema(kind.schema)
    if kind.is_list:
        return header(kind) + starting_entry(kind, id, known)
    return header(kind) + "".join(_lines(kind, id, shape, known, ""))


def starting_entry(kind: Kind, id: str, known: Mapping[str, frozenset[str]]) -> str:
    """The text of one new entry of a list file."""
    entry = follow(kind.schema, schema(kind.schema)["additionalProperties"])
    return f"{id}:\n" + "".join(_lines(kind, id, entry, known, "  "))


def header(kind: Kind) -> str:
    """The line by which an editor finds the schema."""
    up = "../" if kind.place.endswith(".yaml") else "../../"
    return f"# yaml-language-server: $schema={up}schema/{kind.schema}.schema.json\n"


def _lines(
    kind: Kind, id: str, shape: Schema, known: Mapping[str, frozenset[str]], lead: str
) -> Iterator[str]:
    """The lines of one mapping; the first key gets the lead itself, the others as many spaces."""
    live = {*shape["required"], *_ALSO.get(kind.name, ())}
    sample = _sample(kind, id, shape, known)
    for name, part in shape["properties"].items():
        yield from (f"{' ' * len(lead)}# {line}\n" for line in _about(kind, part))
        text, mark = _dump(name, sample[name]), "" if name in live else "# "
        if name in live and name != "title":
            text = text.replace(f"{name}:", f"{name}: {EXAMPLE}", 1)
        yield textwrap.indent(text, " " * len(lead) + mark).replace(" " * len(lead), lead, 1)
        lead = " " * len(lead)


def title_of(id: str) -> str:
    """The words of an id."""
    return re.sub("[-_]", " ", id).capitalize()


def _about(kind: Kind, part: Schema) -> Iterator[str]:
    """What the schema says of a key and of the keys below it."""
    yield from textwrap.wrap(part["description"], 100)
    for name, inner in _below(kind, part).items():
        yield from textwrap.wrap(f"- {name}: {inner['description']}", 96, subsequent_indent="  ")


def _below(kind: Kind, part: Schema) -> dict[str, Schema]:
    part = follow(kind.schema, part)
    inside = part.get("items") or part.get("additionalProperties") or {}
    found: dict[str, Schema] = part.get("properties") or follow(kind.schema, inside).get("properties", {})
    return found


def _dump(name: str, value: object) -> str:
    return block({name: value}) if isinstance(value, list | dict) else f"{name}: {shown(value)}\n"


def _sample(kind: Kind, id: str, shape: Schema, known: Mapping[str, frozenset[str]]) -> dict[str, Any]:
    """Every key with its example, names mended."""
    sample = {name: part["examples"][0] for name, part in shape["properties"].items()}
    if "title" in shape["required"]:
        sample["title"] = title_of(id)
    data: dict[str, Any] = deepcopy(sample)
    record = Record(kind.name, id, data, Places({}, {}), True)
    for reference in references_of(record):
        _mend(data, reference, known)
    return data


def _mend(data: Any, reference: Reference, known: Mapping[str, frozenset[str]]) -> None:
    there = known["failure-mode"] if reference.target == "fit" else known[reference.target]
    if reference.id in there or not there:
        return
    *above, last = reference.route
    for step in above:
        data = data[step]
    if reference.key:
        data[min(there)] = data.pop(last)
    else:
        data[last] = min(there)
