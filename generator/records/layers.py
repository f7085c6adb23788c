"""Where a later content folder says other than an earlier one."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.finding import Finding, fault, quote
from generator.records.merge import joint_of
from generator.records.node import Node, plain


def disagreements(below: Node, above: Node) -> Iterator[Finding]:
    """A note for every value of a later folder that stands in the place of another one of an earlier folder."""
    if isinstance(below.value, dict) and isinstance(above.value, dict):
        for key, node in above.value.items():
            if key in below.value:
                yield from _of_key(key, below.value[key], node)
    elif plain(below) != plain(above):
        yield _note("This", below, above)


def note_disagreements(below: Node, above: Node) -> Iterator[Finding]:
    """The same for a family's fastener notes, joint by joint."""
    if isinstance(below.value, list) and isinstance(above.value, list):
        known = {joint_of(note): note for note in below.value}
        for note in above.value:
            if joint_of(note) in known:
                yield from disagreements(known[joint_of(note)], note)


def _of_key(key: str, below: Node, above: Node) -> Iterator[Finding]:
    if isinstance(below.value, dict) and isinstance(above.value, dict):
        yield from disagreements(below, above)
    elif plain(below) != plain(above):
        yield _note(quote(key), below, above)


def _note(what: str, below: Node, above: Node) -> Finding:
    """The later folder wins: that is what it is laid over the other for."""
    there = f"{below.at.path.as_posix()}:{below.at.line}"
    message = f"{what} is {_said(above)} here and {_said(below)} in {there}."
    return fault(above.at, message, "The later folder wins: this one stands.", "note")


def _said(node: Node) -> str:
    if isinstance(node.value, dict | list):
        return f"a list of {len(node.value)}" if isinstance(node.value, list) else "a mapping"
    return quote(node.value, 40)
