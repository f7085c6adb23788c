"""Files put in their places whole: whoever reads, and whatever ends the writer, finds the old one or the new one."""

from __future__ import annotations

import os
import secrets
import shutil
from pathlib import Path


def put(path: Path, content: bytes) -> None:
    """Put a file in its place in one step, with the rights of the one that was there. Raises OSError."""
    part = _beside(path, content)
    try:
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def put_new(path: Path, content: bytes) -> None:
    """Put a file where none is, in one step. Raises FileExistsError where one is, and other kinds of OSError."""
    if os.path.lexists(path):
        raise FileExistsError(path)
    put(path, content)


def _beside(path: Path, content: bytes) -> Path:
    """The content in a file of its own beside its place."""
    part = path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")
    try:
        with part.open("xb") as file:
            file.write(content)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    return part
