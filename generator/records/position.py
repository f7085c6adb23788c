"""Where in which file a value stands."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """A place in a file."""

    path: Path
    "The file."
    line: int
    "From 1."
    column: int
    "From 1, in characters."
