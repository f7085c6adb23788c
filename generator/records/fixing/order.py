"""The keys of a record in the order of its schema."""

from __future__ import annotations

from collections.abc import Sequence

from generator.records.node import Node


def in_order(text: str, top: Node, order: Sequence[str]) -> str:
    """A record's text with its keys in the schema's order; each takes the notes above it along.

    What stands above the first key and is parted from it by an empty line, or is for an editor, stays on top.
    Where two keys share a line, or one is none of the schema's, the text comes back as it was.
    """
    starts = [top.keys[key].line for key in top.keys]
    block = all(top.keys[key].column == 1 for key in top.keys)
    if not block or len(set(starts)) != len(starts) or not top.keys.keys() <= set(order):
        return text
    lines = text.split("\n")
    end = [""] if lines[-1] == "" else []
    lines = lines[: len(lines) - len(end)]
    begins = [_begin(lines, line) for line in starts]
    begins[0] = max(begins[0], _head(lines[: starts[0] - 1]))
    pieces = dict(zip(top.keys, (lines[a:b] for a, b in zip(begins, [*begins[1:], len(lines)], strict=True)), strict=True))
    ordered = (line for key in sorted(pieces, key=order.index) for line in pieces[key])
    return "\n".join([*lines[: begins[0]], *ordered, *end])


def _begin(lines: Sequence[str], line: int) -> int:
    """Where the piece of a key on a line (from 1) begins: with the notes that stand right above it."""
    begin = line - 1
    while begin and lines[begin - 1].startswith("#"):
        begin -= 1
    return begin


def _head(above: Sequence[str]) -> int:
    """How many lines above the first key belong to the file: up to its last empty line, mark or line for an editor."""
    marks = [n for n, line in enumerate(above, 1) if not line.startswith("#") or "yaml-language-server" in line]
    return max(marks, default=0)
