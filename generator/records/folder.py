"""Which files of a content folder hold records."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from generator.records.finding import Finding, did_you_mean, quote
from generator.records.kinds import BY_PLACE, KINDS, Kind


@dataclass(frozen=True, slots=True)
class RecordFile:
    """A file that holds a record, or a list of them."""

    path: Path
    "The file, below the content folder as it was named."
    kind: Kind
    "By its folder."
    id: str
    "The file's name without `.yaml`."


@dataclass(slots=True)
class Scan:
    """What one content folder holds."""

    files: list[RecordFile] = field(default_factory=list)
    "Sorted by path."
    findings: list[Finding] = field(default_factory=list)
    "What is misplaced, and what cannot be opened."
    closed: set[str] = field(default_factory=set)
    "Kinds of which records may stand in a folder that cannot be opened."


def scan(folder: Path) -> Scan:
    """The record files of one content folder and what is misplaced in it."""
    found = Scan()
    for path in sorted(_yaml_like(folder, folder, found), key=lambda path: path.parts):
        kind = _kind_of(path.relative_to(folder))
        problem = _misplaced(path, folder, kind)
        if problem:
            found.findings.append(Finding(path, 1, 1, *problem))
        elif kind:
            found.files.append(RecordFile(path, kind, path.stem))
    return found


def _yaml_like(folder: Path, top: Path, found: Scan) -> Iterator[Path]:
    """Everything below the folder that is named as YAML; hidden names are passed over."""
    try:
        entries = [entry for entry in os.scandir(folder) if not entry.name.startswith(".")]
    except OSError as error:
        _close(folder, top, found, f"The folder cannot be opened: {error.strerror}.", "Mend its permissions or the link.")
        return
    for entry in entries:
        path = folder / entry.name
        if path.suffix.lower() in (".yaml", ".yml"):
            yield path
        elif entry.is_symlink() and entry.is_dir():
            _close(path, top, found, "A linked folder is not followed.", "Put the folder itself here.")
        elif entry.is_dir():
            yield from _yaml_like(path, top, found)


def _close(folder: Path, top: Path, found: Scan, message: str, hint: str) -> None:
    """A folder that stays shut: one finding, and whatever belongs in it may be there."""
    found.findings.append(Finding(folder, 1, 1, message, hint))
    kind = BY_PLACE.get(folder.relative_to(top).as_posix())
    found.closed.update((kind.name,) if kind else KINDS if folder == top else ())


def _within(path: Path, folder: Path) -> bool:
    """Whether what a name leads to lies in the folder; linked folders are not followed, so what is no link lies where it is named."""
    try:
        return not path.is_symlink() or path.resolve(strict=True).is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return True  # a broken link or a round of links: reading it says what is wrong


def _kind_of(below: Path) -> Kind | None:
    place = below.parts[0] if len(below.parts) == 2 else str(below) if len(below.parts) == 1 else ""
    return BY_PLACE.get(place)


def _misplaced(path: Path, folder: Path, kind: Kind | None) -> tuple[str, str] | None:
    below = path.relative_to(folder)
    if path.suffix != ".yaml":
        message = f"A record's file ends in '.yaml', not {quote(path.suffix)}."
        return message, f"Rename it to {quote(path.stem + '.yaml')}."
    if kind is None:
        return f"{quote(below.as_posix())} is no place for a record.", _where_to(below)
    if not _within(path, folder):
        return "The link leads out of the content folder.", "Put the file itself here."
    return None


def _where_to(below: Path) -> str:
    folders = sorted(place for place in BY_PLACE if not place.endswith(".yaml"))
    if below.name in BY_PLACE:
        return f"Move it to the top of the content folder, as {below.name}."
    if len(below.parts) > 2 and below.parts[0] in BY_PLACE:
        return f"Move it up, to {below.parts[0]}/{below.name}."
    otherwise = f"Move it to the folder of its kind: {', '.join(folders)}."
    return did_you_mean(below.parts[0], folders, otherwise) if len(below.parts) > 1 else otherwise
