"""Starting fastener notes: one entry for each joint of a family."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from generator.records.compose import EXAMPLE
from generator.records.explain import shown
from generator.records.kinds import KINDS
from generator.records.rules.built import Built
from generator.records.schema import Schema, follow, schema
from generator.records.starting import header

_KIND = KINDS["fasteners"]
_OFFERED = ("thread", "drive", "count", "seats_on", "source")
"Keys that stand under each joint as comments: what one needs at the bench."


def holds(built: Built) -> dict[str, str]:
    """Joint -> the titles of the parts and settings that it holds, in the order of the family."""
    found: dict[str, list[str]] = {}
    for group in (built.parts, built.settings):
        for owners in group.values():
            for owner in owners:
                for joint in owner.value.joints:
                    found.setdefault(joint, []).append(owner.value.title)
    return {joint: ", ".join(dict.fromkeys(titles)) for joint, titles in found.items()}


def starting_notes(joints: Mapping[str, str]) -> str:
    """The text of a new file of notes: what each key says, once, and an entry a joint."""
    return header(_KIND) + "".join(f"# {line}\n" for line in _explained()) + starting_entries(joints)


def starting_entries(joints: Mapping[str, str]) -> str:
    """An entry a joint: its kind is an example that `check` asks to replace, the rest stand as comments."""
    return "".join(_entry(joint, held) for joint, held in joints.items())


def _entry(joint: str, held: str) -> str:
    keys = _note()["properties"]
    offered = "".join(f"  # {key}: {shown(keys[key]['examples'][0])}\n" for key in _OFFERED)
    return f"# Holds: {held}.\n- joint: {joint}\n  kind: {EXAMPLE} {shown(keys['kind']['examples'][0])}\n{offered}"


def _explained() -> Iterator[str]:
    yield "One entry a joint. Its keys:"
    for key, part in _note()["properties"].items():
        yield from textwrap.wrap(f"- {key}: {part['description']}", 100, subsequent_indent="  ")


def _note() -> Schema:
    return follow(_KIND.schema, schema(_KIND.schema)["items"])
