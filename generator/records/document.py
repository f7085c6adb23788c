"""One YAML file: bytes from the disk to data that knows where it stands."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.records.compose import compose
from generator.records.finding import Finding
from generator.records.node import Node, Route, places, plain
from generator.records.position import Position

LARGEST = 2**20
"Bytes that a file may hold."

_MARKS = re.compile(r"^(<{7}|={7}|>{7}|[|]{7})(?= |\r?$)", re.M)
"Lines with which a merge marks both versions of what two people changed."
_FORBIDDEN = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True, slots=True)
class Document:
    """A file that could be read."""

    path: Path
    "The file."
    data: object
    "Mappings, lists and scalars, as YAML 1.2 reads them."
    positions: Mapping[Route, Position]
    "Route to a value -> where the value begins."
    keys: Mapping[Route, Position]
    "Route to a value in a mapping -> where its key stands."


@dataclass(frozen=True, slots=True)
class Reading:
    """What came of reading a file."""

    node: Node | None
    "The file's one value; None where it could not be read."
    text: str
    "The text as far as it could be decoded."
    findings: tuple[Finding, ...]
    "All that is wrong with the file as YAML."


def read_document(path: Path) -> tuple[Document | None, tuple[Finding, ...]]:
    """A file's data with positions, and all that is wrong with it as YAML. Never raises."""
    reading = read_file(path)
    if reading.node is None:
        return None, reading.findings
    where = places(reading.node)
    return Document(path, plain(reading.node), where.values, where.keys), reading.findings


def read_file(path: Path) -> Reading:
    """A file's value as a node, and all that is wrong with it as YAML. Never raises."""
    raw = bytes_of(path)
    return raw if isinstance(raw, Reading) else parse(raw, path)


def bytes_of(path: Path) -> bytes | Reading:
    """A file's bytes, of one that is too large only the first; or what is wrong where it cannot be read. Never raises."""
    try:
        if not path.is_file():
            return _unread(path, "This is no plain file.", "Put a file of that name here, or take it away.")
        with path.open("rb") as file:
            most = min(os.fstat(file.fileno()).st_size, LARGEST) + 1  # room for a megabyte is made ready slowly
            return file.read(most)
    except OSError as error:
        why = error.strerror or type(error).__name__
        return _unread(path, f"The file cannot be opened: {why}.", "Mend its permissions or the link.")


def parse(raw: bytes, path: Path) -> Reading:
    """The value in a file's bytes: UTF-8, with or without a byte order mark."""
    text = text_of(raw, path)
    if isinstance(text, Reading):
        return text
    node, findings = compose(text, path)
    if node is None and not findings:
        findings = [Finding(path, 1, 1, "The file is empty.", "Write the record, or take the file away.")]
    return Reading(node, text, tuple(findings))


def text_of(raw: bytes, path: Path) -> str | Reading:
    """The text in a file's bytes, or what is wrong with it as text."""
    text = raw.decode("utf-8", errors="replace").removeprefix("\ufeff")
    finding = _bytes_fault(raw, path) or _character_fault(text, path) or _merge_fault(text, path)
    return Reading(None, text, (finding,)) if finding else text


def _unread(path: Path, message: str, hint: str) -> Reading:
    return Reading(None, "", (Finding(path, 1, 1, message, hint),))


def _bytes_fault(raw: bytes, path: Path) -> Finding | None:
    if len(raw) > LARGEST:
        return Finding(path, 1, 1, "The file is larger than 1 MiB.", "Split it; a record is a page or two.")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return Finding(path, 1, 1, "The file is UTF-16.", "Save it as UTF-8.")
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line, column = _place(raw[: error.start].decode("utf-8").removeprefix("\ufeff"))
        message = f"Byte 0x{raw[error.start]:02x} is not UTF-8."
        return Finding(path, line, column, message, "Save the file as UTF-8.")
    return None


def _character_fault(text: str, path: Path) -> Finding | None:
    match = _FORBIDDEN.search(text)
    if match is None:
        return None
    line, column = _place(text[: match.start()])
    count = len(_FORBIDDEN.findall(text))
    message = f"A control character stands here (U+{ord(match[0]):04X}; {count} in the file)."
    return Finding(path, line, column, message, "Delete it.")


def _place(before: str) -> tuple[int, int]:
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


def _merge_fault(text: str, path: Path) -> Finding | None:
    """A merge that was not brought to its end."""
    marks = [(text.count("\n", 0, mark.start()) + 1, mark[0]) for mark in _MARKS.finditer(text)]
    if not marks:
        return None
    (first, mark), (last, _) = marks[0], marks[-1]
    if {"<" * 7, ">" * 7} <= {mark for _, mark in marks}:
        message = f"A merge left two versions here, in lines {first} to {last}."
        hint = "Keep one of them, and take out the lines that begin with <<<<<<<, ======= and >>>>>>>."
    else:
        message, hint = f"A mark of a merge is left here: {mark}.", "Take the line out, and read the lines round it again."
    return Finding(path, first, 1, message, hint)
