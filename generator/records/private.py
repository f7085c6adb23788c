"""Which content folders stay in the shop."""

from __future__ import annotations

from pathlib import Path

from generator.records.document import read_file
from generator.records.node import plain

_SAYS = "shop.yaml"
"The file of a folder that says so."


def is_private(folder: Path) -> bool:
    """Whether a folder's own shop.yaml says `private: true`.

    One that cannot be read, or says neither true nor false, is taken to be private: better left out than given away.
    """
    file = folder / _SAYS
    if not (file.exists() or file.is_symlink()):
        return False
    node = read_file(file).node
    data = plain(node) if node else None
    return not isinstance(data, dict) or data.get("private", False) is not False
