"""A later content folder's record laid over an earlier one's."""

from __future__ import annotations

from collections.abc import Mapping

from generator.records.node import Node
from generator.records.position import Position


def overlay(below: Node, above: Node) -> Node:
    """Mappings merge key by key; a scalar or a list replaces. Every value keeps its own position."""
    if not (isinstance(below.value, dict) and isinstance(above.value, dict)):
        return above
    values: dict[str, Node] = dict(below.value)
    keys: dict[str, Position] = dict(below.keys)
    for key, node in above.value.items():
        values[key] = overlay(values[key], node) if key in values else node
        keys[key] = above.keys[key]
    return Node(values, below.at, keys)


def overlay_notes(below: Node, above: Node) -> Node:
    """Fastener notes merge joint by joint; a note of a new joint follows the others."""
    if not (isinstance(below.value, list) and isinstance(above.value, list)):
        return above
    notes = list(below.value)
    places = {joint: place for place, note in enumerate(notes) if (joint := joint_of(note))}
    for note in above.value:
        place = places.get(joint_of(note) or "")
        if place is None:
            notes.append(note)
        else:
            notes[place] = overlay(notes[place], note)
    return Node(notes, below.at)


def joint_of(note: Node) -> str | None:
    """The joint that a fastener note is about."""
    fields: Mapping[str, Node] = note.value if isinstance(note.value, dict) else {}
    joint = fields["joint"].value if "joint" in fields else None
    return joint if isinstance(joint, str) else None
