"""Exact edits of a file's text, and writing it whole or not at all."""

from __future__ import annotations

import errno
import stat
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from generator.whole_files import put


@dataclass(frozen=True, slots=True, order=True)
class Edit:
    """One word of a file that becomes another."""

    line: int
    "From 1."
    column: int
    "From 1, in characters."
    old: str
    "What stands there, in quotes or not."
    new: str
    "What stands there afterwards."


def edited(text: str, edits: Iterable[Edit]) -> tuple[str, list[Edit]]:
    """The text with every edit whose old word does stand in its place, and those edits.

    >>> edited('low: "2 MM"  # by eye', [Edit(1, 6, "2 MM", "2 mm"), Edit(1, 1, "high", "low")])
    ('low: "2 mm"  # by eye', [Edit(line=1, column=6, old='2 MM', new='2 mm')])
    """
    lines = text.split("\n")
    done = []
    for edit in sorted(set(edits), reverse=True):
        line = lines[edit.line - 1]
        start = edit.column - 1 + (line[edit.column - 1 : edit.column] in ("'", '"'))
        if line.startswith(edit.old, start) and _ends(line, start + len(edit.old)):
            lines[edit.line - 1] = line[:start] + edit.new + line[start + len(edit.old) :]
            done.append(edit)
    return "\n".join(lines), done[::-1]


def _ends(line: str, at: int) -> bool:
    """Whether a word ends here and does not go on."""
    after = line[at : at + 1]
    return not (after.isalnum() or after in ("-", "_", "/"))


def write(path: Path, text: str) -> None:
    """Put the whole text in a file's place in one step, with the rights that it had.

    Raises OSError, and also where the file is for reading only: its folder alone would let it be put aside.
    """
    if not path.stat().st_mode & stat.S_IWUSR:
        raise PermissionError(errno.EACCES, "it is for reading only")
    put(path, text.encode("utf-8"))
