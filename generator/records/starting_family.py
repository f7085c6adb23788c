"""A starting family begun from a near one: every value stands to be looked at before `check` is content."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from generator.records.block import WIDTH, block
from generator.records.compose import EXAMPLE
from generator.records.explain import shown
from generator.records.kinds import KINDS
from generator.records.schema import schema
from generator.records.starting import header, title_of

_KIND = KINDS["family"]
_ITS_OWN = ("models", "rates", "notes")
"Keys that are true of the other family alone."


def like(near: str, data: Mapping[str, Any], id: str) -> str:
    """The text of a new family with what the near one says, marked until it is looked at."""
    keys = schema(_KIND.schema)["properties"]
    said = [key for key in keys if key in data and key not in _ITS_OWN and key != "title"]
    body = "".join(f"{_comment(keys[key])}{_marked(key, data[key])}" for key in said)
    told = f"# Begun from {near}. Hold each marked value against the machine; then take out {EXAMPLE}.\n"
    return f"{header(_KIND)}{told}title: {shown(title_of(id))}\n{body}"


def to_look_at(near: str, data: Mapping[str, Any]) -> Iterator[str]:
    """What was taken over, in the order in which it is looked at, and what was not."""
    uses = data.get("assemblies", ())
    changed = [use["use"] for use in uses if isinstance(use, dict)]
    yield f"Begun from {near}. Look at:"
    yield f"  assemblies  {len(uses)} mechanisms" + (f"; changed in {near}: {', '.join(changed)}" if changed else "")
    yield f"  features    {len(data.get('features', ()))} facts, each to be seen at the machine"
    yield f"  figures     {len(data.get('figures', ()))} measures, each to be taken anew"
    left = [key for key in _ITS_OWN if key in data]
    if left:
        yield f"Not taken over, since they are of {near} alone: {', '.join(left)}."


def _comment(part: Mapping[str, Any]) -> str:
    return "".join(f"# {line}\n" for line in textwrap.wrap(part["description"], 100))


def _marked(key: str, value: Any) -> str:
    if key == "figures":  # each is measured by itself, so each is marked by itself
        return "figures:\n" + "".join(f"  {name}: {EXAMPLE} {shown(figure)}\n" for name, figure in value.items())
    line = f"{key}: {EXAMPLE} {shown(value)}\n"
    flat = not isinstance(value, list | dict) or _is_words(value)
    if flat and len(line) <= WIDTH:
        return line
    return block({key: value}).replace(f"{key}:", f"{key}: {EXAMPLE}", 1)


def _is_words(value: list[Any] | Mapping[str, Any]) -> bool:
    return isinstance(value, list) and all(isinstance(entry, str) for entry in value)
