"""A fault tree from a file in the open exchange format, as safe to print as one of the records."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

from generator.analysis.mef import from_mef
from generator.analysis.tree import Gate, gates_upward, walk
from generator.commands.refusing import refuse

MOST_BYTES = 10_000_000
MOST_NODES = 20_000
"Lines that a tree may fill, its shared gates as often as they stand."
DEEPEST = 200
"Gates under one another."


def tree_of_file(path: Path) -> tuple[Gate, dict[str, float]]:
    """The tree, and the probabilities of its events by id, as far as the file gives them. Refuses in one sentence."""
    try:
        top, q = from_mef(_text(path))
    except ValueError as error:
        refuse(f"{path}: {error}")
    if _depth(top) > DEEPEST:
        refuse(f"{path}: The tree is more than {DEEPEST} gates deep. Give a part of it.")
    if sum(1 for _ in islice(walk(top), MOST_NODES + 1)) > MOST_NODES:
        refuse(f"{path}: Written out, the tree has more than {MOST_NODES} nodes. Give a part of it.")
    return top, q


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            refuse(f"{path}: The file is larger than {MOST_BYTES // 1_000_000} MB.")
        return path.read_text("utf-8")
    except UnicodeDecodeError:
        refuse(f"{path}: The file is no text in UTF-8.")
    except OSError as error:
        refuse(f"{path}: {error.strerror or 'It cannot be read'}.")


def _depth(top: Gate) -> int:
    """Gates on the longest way down."""
    depths: dict[int, int] = {}
    for gate in gates_upward(top):
        depths[id(gate)] = 1 + max((depths.get(id(below), 0) for below in gate.inputs), default=0)
    return depths[id(top)]
