"""Values kept between runs as JSON files, checked when they are read: a torn or foreign file is as good as none.

Nothing in a kept file is run: whatever it holds, reading it gives a value of the asked type or nothing.
"""

from __future__ import annotations

import json
import os
import re
import time
from contextlib import suppress
from mmap import ACCESS_READ, mmap
from pathlib import Path
from typing import Generic, TypeVar

from generator.typed_json import from_json, to_json
from generator.whole_files import put

T = TypeVar("T")

_LARGEST = 2**26
"Bytes of a file that is read."
_OURS = re.compile(r"(?:[a-z]+-)?[0-9a-f]{40}\.(?:json|pickle)")
"Names that this and earlier versions gave."
_TORN = re.compile(r"\.[a-z]+-[0-9a-f]{40}\.json\.[0-9a-f]{8}\.part|tmp[a-z0-9_]{8}\.part")
"Names of what a writer leaves that is killed, in this and earlier versions. Nothing else in the folder is touched."
_TEXT = re.compile(rb'"(?:[^"\\]|\\.)*"')
"A text of JSON."
_LONG_AGO = 3600
"Seconds after which nobody writes on such a file any more."


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

    def text(self, fingerprint: str, key: str) -> str | None:
        """Of a kept object, the text that stands under a key at any depth, without reading the rest of it; or None.

        A stroke before the first quotation mark would be a part of another text: within one, each has a stroke before it.
        """
        if self._folder is None:
            return None
        try:
            with self._path(self._folder, fingerprint).open("rb") as file, mmap(file.fileno(), 0, access=ACCESS_READ) as held:
                begin = f'{json.dumps(key)}:"'.encode()
                at = held.find(begin) + len(begin) - 1
                found = _TEXT.match(held, at) if at >= len(begin) - 1 else None
                text = json.loads(found[0]) if found else None
        except (OSError, ValueError):
            return None
        return text if isinstance(text, str) else None

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
        with suppress(OSError, UnicodeEncodeError):  # a file's name can be what is no text
            self._folder.mkdir(parents=True, exist_ok=True)
            put(self._path(self._folder, fingerprint), json.dumps(held, ensure_ascii=False, separators=(",", ":")).encode())
        return value

    def prune(self) -> None:
        """Take away all but the files used last, and what earlier versions left."""
        if self._folder is None:
            return
        with suppress(OSError):
            files = [p for p in self._folder.iterdir() if not p.is_symlink()]
            mine = [p for p in files if _OURS.fullmatch(p.name) and p.name.startswith(f"{self._kind}-") and p.suffix == ".json"]
            old = sorted(mine, key=lambda p: p.stat().st_mtime, reverse=True)[self._most :]
            for path in (*old, *filter(_is_left_over, files)):
                path.unlink(missing_ok=True)

    def _path(self, folder: Path, fingerprint: str) -> Path:
        return folder / f"{self._kind}-{fingerprint}.json"


def _is_left_over(path: Path) -> bool:
    """Whether an earlier version wrote the file, or a writer that was killed long ago."""
    if _TORN.fullmatch(path.name):
        return path.stat().st_mtime < time.time() - _LONG_AGO
    return bool(_OURS.fullmatch(path.name)) and path.suffix == ".pickle"
