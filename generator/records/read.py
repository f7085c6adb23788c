"""Content folders to validated raw records, with everything that is wrong with them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from generator.records.explain import explain
from generator.records.finding import Finding, fault
from generator.records.folder import Scan, scan
from generator.records.gather import gather, guides
from generator.records.glance import builds
from generator.records.kinds import BY_PLACE, KINDS, Kind
from generator.records.model import PictureFile
from generator.records.node import Node, Places, Route, places, plain
from generator.records.picture_files import picture_files
from generator.records.position import Position
from generator.records.schema import schema, validator
from generator.records.schema_keys import body
from generator.records.sound_files import SoundFile, SoundFiles


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
    "Kind -> id -> record, ids sorted; records with faults too, where they could be read at all."
    findings: tuple[Finding, ...]
    "What is wrong with files and shapes, sorted."
    unread: Mapping[str, frozenset[str]]
    "Kind -> names of files that could not be read."
    words: frozenset[str]
    "Words of the files that could not be read: what they may define or use."
    blind: frozenset[str]
    "Kinds of which some file shows not even its words."
    guides: tuple[str, ...] = ()
    "Text of the guides, which may use terms."
    pictures: Mapping[str, PictureFile] = field(default_factory=dict)
    "By the file's name."


def read(folders: Sequence[Path], known: SoundFiles | None = None) -> Content:
    """Read content folders, later ones over earlier ones, and validate what comes of it. Never raises.

    `known`: files that were sound before, of which only the bytes are looked at.
    """
    content = read_files([scan(folder) for folder in folders], known or SoundFiles())
    return replace(content, guides=tuple(guides(folders)), pictures=picture_files(folders))


def read_files(scans: Iterable[Scan], known: SoundFiles) -> Content:
    """Read the record files that were found in folders, as `read` does, and nothing beside them."""
    gathered = gather(scans, known)
    of_files = [replace(finding, rule="file") for finding in gathered.findings]
    findings = list(of_files)
    records: list[Record] = []
    for (kind, id), held in gathered.held.items():
        faults = len(findings)
        of_file = _sound(KINDS[kind], id, held) if isinstance(held, SoundFile) else _records(KINDS[kind], id, held, findings)
        records += of_file
        if len(findings) == faults and all(r.sound for r in of_file) and (raw := gathered.alone((kind, id))):
            known.note(kind, raw, held.data if isinstance(held, SoundFile) else plain(held))
    return Content(
        records=by_kind(records),
        findings=tuple(sorted(_with_notes(_first_in_place(findings, of_files), gathered.notes))),
        unread={kind: frozenset(ids) for kind, ids in gathered.unread.items()},
        words=frozenset(gathered.words),
        blind=frozenset(gathered.blind),
    )


def _first_in_place(findings: Iterable[Finding], first: Iterable[Finding]) -> set[Finding]:
    """Findings without those of the schema that stand where YAML itself was at fault."""
    spoken = {(f.path, f.line, f.column) for f in first}
    return {f for f in findings if (f.path, f.line, f.column) not in spoken}.union(first)


def _with_notes(faults: set[Finding], notes: Iterable[Finding]) -> set[Finding]:
    """Faults, and the notes on values that have none: a value that is wrong wins over nothing."""
    spoken = {(f.path, f.line, f.column) for f in faults}
    return faults.union(replace(n, rule="layers") for n in notes if (n.path, n.line, n.column) not in spoken)


def _records(kind: Kind, id: str, node: Node, findings: list[Finding]) -> list[Record]:
    """The record of a file, or the records of a list file; what the schema has against them is added."""
    data, where = plain(node), places(node)
    routes = _faults(kind, data, where, findings)
    if not kind.is_list:
        return [Record(kind.name, id, data, where, not routes and builds(kind, data))]
    entries = node.value if isinstance(node.value, dict) else {}
    bad = {route[0] for route in routes if route}
    return [
        Record(kind.name, key, plain(entry), _entry_places(entry, node.keys[key]), key not in bad)
        for key, entry in entries.items()
    ]


def _sound(kind: Kind, id: str, file: SoundFile) -> list[Record]:
    """The records of a file that is known to be sound; where a value stands is found out when it is asked for."""
    if not kind.is_list:
        return [Record(kind.name, id, file.data, Places.later(lambda: places(file.node), file.path), True)]
    entries = file.data if isinstance(file.data, dict) else {}
    return [
        Record(kind.name, key, entry, Places.later(partial(_places_in, file, key), file.path), True)
        for key, entry in entries.items()
    ]


def _places_in(file: SoundFile, key: str) -> Places:
    top = file.node
    assert isinstance(top.value, dict), "a list of records is a mapping"
    return _entry_places(top.value[key], top.keys[key])


def _entry_places(entry: Node, key: Position) -> Places:
    where = places(entry)
    return Places(where.values, {**where.keys, (): key})


def _faults(kind: Kind, data: object, where: Places, findings: list[Finding]) -> list[Route]:
    """Routes to what the schema has against a file's data; the sentences are added to the findings."""
    routes: list[Route] = []
    if stranger := _of_another_kind(kind, data):
        message = f"This is {stranger.article} {stranger.noun}, and the folder is that of another kind."
        findings.append(replace(fault(where.of(()), message, f"Move the file to {stranger.place}/."), rule="file"))
        return [()]
    for error in validator(kind.schema).iter_errors(data):
        findings += (replace(finding, rule="schema") for finding in explain(error, where, kind.schema))
        route = tuple(error.absolute_path)
        routes.append((*route, error.instance) if "propertyNames" in error.schema_path else route)
    return routes


def _of_another_kind(kind: Kind, data: object) -> Kind | None:
    """The kind whose keys a file has where it has not those of its own folder."""
    if kind.is_list or not isinstance(data, dict) or not data or data.keys() <= body(kind.schema)["properties"].keys():
        return None
    return next((other for other in BY_PLACE.values() if not other.place.endswith(".yaml") and _has_keys_of(other, data)), None)


def _has_keys_of(kind: Kind, data: dict[str, object]) -> bool:
    shape = schema(kind.schema)
    return "properties" in shape and set(shape["required"]) <= data.keys() <= shape["properties"].keys()


def by_kind(records: Iterable[Record]) -> dict[str, dict[str, Record]]:
    """Kind -> id -> record, ids sorted."""
    found: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for record in sorted(records, key=lambda record: record.id):
        found[record.kind][record.id] = record
    return found
