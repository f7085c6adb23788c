"""What of the records comes from a later content folder."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.records.node import Places, Route


@dataclass(frozen=True, slots=True)
class Own:
    """What a later folder says of one record."""

    folder: str
    "Name of the folder; of the last one, where several say something."
    keys: tuple[str, ...] = ()
    "Keys that it lays over an earlier folder's record, such as `off.minutes`; none where the whole record is its own."


def own_records(places: Mapping[tuple[str, str], Places], later: Sequence[Path]) -> dict[str, dict[str, Own]]:
    """Kind -> id -> what of that record stands in a later folder; records that have nothing of it are left out."""
    found: dict[str, dict[str, Own]] = {}
    for (kind, id), where in sorted(places.items()) if later else ():
        tops = dict(_tops(where, later))
        if tops:
            keys = tuple(".".join(map(str, route)) for route in tops if route)
            found.setdefault(kind, {})[id] = Own([*tops.values()][-1], () if () in tops else keys)
    return found


def _tops(where: Places, later: Sequence[Path]) -> Iterator[tuple[Route, str]]:
    """The values of later folders that stand in none of the same folder, and the folder's name."""
    at: Mapping[Route, Path] = {(): where.file} if where.file else {route: at.path for route, at in where.values.items()}
    folders = {route: _folder(path, later) for route, path in at.items()}
    for route, folder in folders.items():
        if folder and not (route and folders[route[:-1]]):
            yield route, folder


def _folder(path: Path, later: Sequence[Path]) -> str:
    """The last of the folders that holds a file; a folder within another is the later one's."""
    return next((folder.name for folder in reversed(later) if path.is_relative_to(folder)), "")
