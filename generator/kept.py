"""Values kept between runs as JSON files, checked when they are read: a torn or foreign file is as good as none.

Nothing in a kept file is run: whatever it holds, reading it gives a value of the asked type or nothing.
"""

from __future__ import annotations

import json
import os
import re
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Generic, TypeVar

from generator.typed_json import from_json, to_json

T = TypeVar("T")

_LARGEST = 2**26
"Bytes of a file that is read."
_OURS = re.compile(r"(?:[a-z]+-)?[0-9a-f]{40}\.(?:json|pickle)")
"Names that this and earlier versions gave; nothing else in the folder is touched."


class Kept(Generic[T]):
    """A folder of values of one type, each under a fingerprint of all that it was worked out from."""

    def __init__(self, folder: Path | None, kind: str, shape: type[T], most: int) -> None:
        """Without a folder nothing is kept. `most` is how many files stay when `prune` is called."""
        self._folder = None if folder is None or folder.is_symlink() else folder
        self._kind = kind
        self._shape = shape
        self._most = most

    def read(self, fingerprint: str) -> T | None:
        """The value kept under a fingerprint, or None."""
        if self._folder is None:
            return None
        path = self._path(self._folder, fingerprint)
        try:
            if path.stat().st_size > _LARGEST:
                return None
            held = json.loads(path.read_bytes())
            value = from_json(self._shape, held["value"]) if held["of"] == fingerprint else None
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            return None
        with suppress(OSError):
            os.utime(path)  # what is used last is pruned last
        return value

    def has(self, fingerprint: str) -> bool:
        """Whether something stands under a fingerprint, sound or not; it is kept as if it had been read."""
        if self._folder is None:
            return False
        path = self._path(self._folder, fingerprint)
        with suppress(OSError):
            os.utime(path)
        return path.is_file()

    def write(self, fingerprint: str, value: T) -> T:
        """Keep a value, if the folder can be written to; the value itself comes back."""
        if self._folder is None:
            return value
        held = {"of": fingerprint, "value": to_json(self._shape, value)}
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            with tempfile.NamedTemporaryFile("w", dir=self._folder, suffix=".part", encoding="utf-8", delete=False) as part:
                json.dump(held, part, ensure_ascii=False, separators=(",", ":"))
            Path(part.name).replace(self._path(self._folder, fingerprint))
        except OSError:
            pass
        return value

    def prune(self) -> None:
        """Take away all but the files used last, and what earlier versions left."""
        if self._folder is None:
            return
        try:
            ours = [p for p in self._folder.iterdir() if _OURS.fullmatch(p.name) and not p.is_symlink()]
            mine = [p for p in ours if p.name.startswith(f"{self._kind}-") and p.suffix == ".json"]
            old = sorted(mine, key=lambda p: p.stat().st_mtime, reverse=True)[self._most :]
            for path in (*old, *(p for p in ours if p.suffix == ".pickle")):
                path.unlink(missing_ok=True)
        except OSError:
            pass

    def _path(self, folder: Path, fingerprint: str) -> Path:
        return folder / f"{self._kind}-{fingerprint}.json"
