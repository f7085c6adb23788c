"""Prints of all that a reading of content folders rests on: by them it is known which files differ from those of an earlier one."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.records.gather import guides
from generator.records.kinds import BY_PLACE, Kind
from generator.records.picture_files import FOLDER as PICTURES
from generator.records.sound_files import print_of

_AT_ONCE = 2**16
"Bytes asked for at first: few records have more."


@dataclass(frozen=True, slots=True)
class Printed:
    """The state of content folders."""

    files: dict[str, str]
    "Path of each record file -> print of its kind and bytes."
    rest: str
    "Print of the guides, the pictures, and the names of files that are out of place."


class _Odd(Exception):
    """Something that is neither a plain file nor a plain folder."""


def printed(folders: Sequence[Path]) -> Printed | None:
    """The state of the folders; None where there is a link among their files, or something that cannot be opened."""
    files: dict[str, str] = {}
    rest = hashlib.sha256()
    try:
        for folder in map(str, folders):
            for path, below in sorted(_plain_files(folder, ())):
                if kind := kind_of(below):
                    files[path] = print_of(kind.name, _bytes_of(path))
                elif _like_yaml(path) or below[0] == PICTURES:
                    rest.update(os.fsencode(f"\0{path}\0{'' if _like_yaml(path) else hashlib.sha256(_bytes_of(path)).hexdigest()}"))
    except (_Odd, OSError):
        return None
    for text in guides(folders):
        rest.update(b"\0" + text.encode("utf-8", errors="surrogatepass"))
    return Printed(files, rest.hexdigest())


def kind_of(below: Sequence[str]) -> Kind | None:
    """The kind of record that a plain file holds, by its place below a content folder; None of one that holds none."""
    place = below[0] if len(below) < 3 and below[-1].endswith(".yaml") else ""
    return BY_PLACE.get(place)


def _plain_files(folder: str, below: tuple[str, ...]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Path of each file, and the steps to it from the content folder; hidden names are passed over. Raises _Odd and OSError."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.startswith("."):
                continue
            if entry.is_file(follow_symlinks=False):
                yield os.path.join(folder, entry.name), (*below, entry.name)
            elif entry.is_dir(follow_symlinks=False) and not _like_yaml(entry.name):
                yield from _plain_files(os.path.join(folder, entry.name), (*below, entry.name))
            else:
                raise _Odd


def _like_yaml(name: str) -> bool:
    return name.lower().endswith((".yaml", ".yml"))


def _bytes_of(path: str) -> bytes:
    opened = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        raw = os.read(opened, _AT_ONCE)
        while len(raw) >= _AT_ONCE and (more := os.read(opened, 2**22)):
            raw += more
        return raw
    finally:
        os.close(opened)
