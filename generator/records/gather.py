"""Content folders to one node for each file name, later folders laid over earlier ones."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from generator.records.document import Reading, bytes_of, parse
from generator.records.finding import Finding
from generator.records.folder import RecordFile, Scan
from generator.records.glance import at_a_glance
from generator.records.kinds import Kind
from generator.records.layers import disagreements, note_disagreements
from generator.records.merge import overlay, overlay_notes
from generator.records.node import Node
from generator.records.sound_files import SoundFile, SoundFiles

_WORD = re.compile(r"[a-z0-9]+(?:[-_.][a-z0-9]+)*")


@dataclass(slots=True)
class Gathered:
    """What the files hold, and what could not be read of them."""

    held: dict[tuple[str, str], Node | SoundFile] = field(default_factory=dict)
    "Kind and file name -> what the files of that name hold, merged; or the one file, where it is known to be sound."
    raw: dict[tuple[str, str], list[bytes]] = field(default_factory=dict)
    "Kind and file name -> the bytes of each file of that name; none of one that YAML has something against."
    findings: list[Finding] = field(default_factory=list)
    "What is wrong with the files as files and as YAML."
    notes: list[Finding] = field(default_factory=list)
    "Where a later folder says other than an earlier one."
    unread: dict[str, set[str]] = field(default_factory=dict)
    "Kind -> names of files that could not be read."
    words: set[str] = field(default_factory=set)
    "Words of those files: what they may define or use."
    blind: set[str] = field(default_factory=set)
    "Kinds of which a file shows not even its words, or a list is no list."

    def take(self, file: RecordFile, reading: Reading, raw: bytes = b"") -> None:
        """Add what came of reading one file."""
        name = file.kind.name
        self.findings += reading.findings
        if reading.node is None:
            self.unread.setdefault(name, set()).add(file.id)
            self.words.update(_WORD.findall(reading.text))
            self.blind.update(() if reading.text else (name,))
        else:
            self.raw.setdefault((name, file.id), []).append(b"" if reading.findings else raw)
            self._lay(file.kind, file.id, reading.node)

    def take_sound(self, file: RecordFile, sound: SoundFile) -> None:
        """Add a file that is known to be sound."""
        place = file.kind.name, file.id
        self.raw.setdefault(place, []).append(sound.raw)
        if place in self.held:
            self._lay(file.kind, file.id, sound.node)
        else:
            self.held[place] = sound

    def alone(self, place: tuple[str, str]) -> bytes:
        """The bytes of the one file of that kind and name; none where there are several, or YAML has something against it."""
        raw = self.raw.get(place, [])
        return raw[0] if len(raw) == 1 else b""

    def _lay(self, kind: Kind, id: str, node: Node) -> None:
        place = kind.name, id
        below = self.held.get(place)
        if isinstance(below, SoundFile):
            below = below.node
        lay, differ = (overlay_notes, note_disagreements) if kind.name == "fasteners" else (overlay, disagreements)
        self.held[place] = lay(below, node) if below else node
        self.notes += differ(below, node) if below else ()
        if kind.is_list and not isinstance(node.value, dict):
            self.blind.add(kind.name)


def gather(scans: Iterable[Scan], known: SoundFiles) -> Gathered:
    """Read every record file that was found in folders. Never raises."""
    gathered = Gathered()
    for found in scans:
        gathered.findings += found.findings
        gathered.blind |= found.closed
        for file in found.files:
            raw = bytes_of(file.path)
            if isinstance(raw, Reading):
                gathered.take(file, raw)
            elif sound := known.of(file.kind.name, file.path, raw) or at_a_glance(file.kind, file.path, raw):
                gathered.take_sound(file, sound)
            else:
                gathered.take(file, parse(raw, file.path), raw)
    return gathered


def guides(folders: Iterable[Path]) -> Iterator[str]:
    """The text of every guide, as far as it can be read."""
    for folder in folders:
        for path in sorted(folder.glob("guides/*.md")):
            if path.is_file() and not path.is_symlink() and os.access(path, os.R_OK):
                yield path.read_text("utf-8", errors="replace")
