"""Files that were read before and had no fault: their bytes need not be gone through again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from generator.records.document import parse
from generator.records.node import Node


@dataclass(frozen=True)
class SoundFile:
    """A file that YAML and schema have nothing against."""

    path: Path
    "The file."
    raw: bytes
    "What stands in it."
    data: object
    "Plain data."

    @cached_property
    def node(self) -> Node:
        """The data with its positions."""
        node = parse(self.raw, self.path).node
        assert node is not None, "the same bytes were read before"
        return node


class SoundFiles:
    """Data of sound files, by what stands in them; those that a reading has met are known to the next one."""

    def __init__(self, known: Mapping[str, str] | None = None) -> None:
        """`known`: what an earlier reading has `met`, under the same schema and code."""
        self._known = known or {}
        self.met: dict[str, str] = {}
        "Print of kind and bytes -> the data as JSON."
        self._read: dict[str, str] = {}
        "What of the known was read, and so is whole."

    @property
    def is_another(self) -> bool:
        """Whether this reading met other files than the one before."""
        return self.met.keys() != self._known.keys()

    def of(self, kind: str, path: Path, raw: bytes) -> SoundFile | None:
        """A file of that kind, where its bytes are known to be sound."""
        name = print_of(kind, raw)
        try:
            found = SoundFile(path, raw, json.loads(self._known[name]))
        except (KeyError, ValueError):  # not known, or kept in a file that was torn since
            return None
        self._read[name] = self._known[name]
        return found

    def note(self, kind: str, raw: bytes, data: object) -> None:
        """A file that is sound."""
        name = print_of(kind, raw)
        self.met[name] = self._read.get(name) or json.dumps(data)


def print_of(kind: str, raw: bytes) -> str:
    """A print of a file's bytes under its kind of record."""
    return hashlib.sha256(kind.encode() + b"\0" + raw).hexdigest()
