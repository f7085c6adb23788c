"""Content folders to validated raw records, with everything that is wrong with them."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.records.document import Reading, read_file
from generator.records.explain import explain
from generator.records.finding import Finding
from generator.records.folder import RecordFile, scan
from generator.records.gates import bad_gates
from generator.records.kinds import KINDS, Kind
from generator.records.merge import overlay, overlay_notes
from generator.records.node import Node, Places, Route, places, plain
from generator.records.position import Position
from generator.records.schema import validator

_WORD = re.compile(r"[a-z0-9]+(?:[-_.][a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Record:
    """One record as data, whatever its kind."""

    kind: str
    "Name of its kind."
    id: str
    "File name, or its key in a list."
    data: object
    "Plain data."
    places: Places
    "Where its values stand, each in the file that it came from."
    sound: bool
    "Whether the schema has nothing against it."


@dataclass(frozen=True, slots=True)
class Content:
    """Everything that was read."""

    records: Mapping[str, Mapping[str, Record]]
    "Kind -> id -> record, both sorted; records with faults too, where they could be read at all."
    findings: tuple[Finding, ...]
    "What is wrong with files and shapes."
    unread: Mapping[str, frozenset[str]]
    "Kind -> ids of files that could not be read."
    words: frozenset[str]
    "Words of the files that could not be read: what they may define or use."
    blind: frozenset[str]
    "Kinds of which a file could not even be opened."
    guides: tuple[str, ...]
    "Text of the guides, which may use terms."


def read(folders: Sequence[Path]) -> Content:
    """Read content folders, later ones over earlier ones, and validate what comes of it. Never raises."""
    findings: list[Finding] = []
    merged: dict[tuple[str, str], Node] = {}
    unread: dict[str, set[str]] = {}
    words: set[str] = set()
    blind: set[str] = set()
    for file, reading in _readings(folders, findings):
        findings += reading.findings
        if reading.node is None:
            unread.setdefault(file.kind.name, set()).add(file.id)
            words.update(_WORD.findall(reading.text))
            blind.update({file.kind.name} if not reading.text else ())
        else:
            _lay(merged, file, reading.node)
    records = [r for (kind, id), node in merged.items() for r in _records(KINDS[kind], id, node, findings)]
    return Content(
        _by_kind(records),
        tuple(sorted(set(findings))),
        {kind: frozenset(ids) for kind, ids in unread.items()},
        frozenset(words),
        frozenset(blind),
        tuple(text for folder in folders for text in _guides(folder)),
    )


def _readings(
    folders: Sequence[Path], findings: list[Finding]
) -> Iterable[tuple[RecordFile, Reading]]:
    for folder in folders:
        files, misplaced = scan(folder)
        findings += misplaced
        for file in files:
            yield file, read_file(file.path)


def _guides(folder: Path) -> Iterator[str]:
    for path in sorted(folder.glob("guides/*.md")):
        if path.is_file() and not path.is_symlink() and os.access(path, os.R_OK):
            yield path.read_text("utf-8", errors="replace")


def _lay(merged: dict[tuple[str, str], Node], file: RecordFile, node: Node) -> None:
    key = (file.kind.name, file.id)
    lay = overlay_notes if file.kind.name == "fasteners" else overlay
    merged[key] = lay(merged[key], node) if key in merged else node


def _records(kind: Kind, id: str, node: Node, findings: list[Finding]) -> list[Record]:
    """The record of a file, or the records of a list file; what the schema has against them is added."""
    data, where = plain(node), places(node)
    routes = _faults(kind, data, where, findings)
    if not kind.is_list:
        return [Record(kind.name, id, data, where, not routes and _builds(kind, data))]
    entries = node.value if isinstance(node.value, dict) else {}
    bad = {route[0] for route in routes if route}
    return [
        Record(kind.name, key, plain(entry), _entry_places(entry, node.keys[key]), key not in bad)
        for key, entry in entries.items()
    ]


def _builds(kind: Kind, data: object) -> bool:
    return kind.name != "symptom" or not any(bad_gates(data))


def _entry_places(entry: Node, key: Position) -> Places:
    where = places(entry)
    return Places(where.values, {**where.keys, (): key})


def _faults(kind: Kind, data: object, where: Places, findings: list[Finding]) -> list[Route]:
    """Routes to what the schema has against a file's data; the sentences are added to the findings."""
    routes: list[Route] = []
    for error in validator(kind.schema).iter_errors(data):
        findings += explain(error, where)
        route = tuple(error.absolute_path)
        routes.append((*route, error.instance) if "propertyNames" in error.schema_path else route)
    return routes


def _by_kind(records: Iterable[Record]) -> dict[str, dict[str, Record]]:
    found: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for record in sorted(records, key=lambda record: record.id):
        found[record.kind][record.id] = record
    return found
