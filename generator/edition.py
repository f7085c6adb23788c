"""Which book this is: its records by a fingerprint, where they stand in git, and the releases that its changelog tells of."""

from __future__ import annotations

import hashlib
import re
import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

CHANGELOG = "CHANGELOG.md"
"Beside the content folder."
_RELEASE = re.compile(r"^## (.+?)\n(.*?)(?=^## |\Z)", re.M | re.S)
_ABOUT_RECORDS = re.compile(r"^### Records\n(.*?)(?=^### |\Z)", re.M | re.S)
_POINT = re.compile(r"^- (.*(?:\n  .*)*)", re.M)
_MONTH = re.compile(r"edition (\d{4})\.(\d\d)")


@dataclass(frozen=True, slots=True)
class Release:
    """One release by the changelog."""

    title: str
    "Such as `0.1.0, edition 2026.11`."
    month: str
    "Of its edition, such as 2026-11; empty where the title names none."
    changes: tuple[str, ...]
    "Markdown: what it brought to the records."


@dataclass(frozen=True, slots=True)
class Edition:
    """What a book is made from. The same checkout gives the same, whoever builds, whenever."""

    fingerprint: str
    "Twelve signs of the SHA-256 of all files of the content folders."
    commit: str = ""
    "That the first content folder is checked out of; empty where it has no history."
    date: str = ""
    "The day of that commit, such as 2026-11-26."
    changed: bool = False
    "Whether the folder holds what no commit does."
    releases: tuple[Release, ...] = ()
    "Newest first."


def edition_of(folders: Sequence[Path]) -> Edition:
    """Reads the folders, git where it is there, and the changelog beside the first folder."""
    commit, _, date = _git(folders[0], "log", "-1", "--format=%H %cs").partition(" ")
    changed = bool(commit and _git(folders[0], "status", "--porcelain", "--", "."))
    return Edition(_fingerprint(folders), commit[:12], date, changed, tuple(_releases(folders[0].resolve().parent / CHANGELOG)))


def _fingerprint(folders: Sequence[Path]) -> str:
    whole = hashlib.sha256()
    for number, folder in enumerate(folders):
        for path in sorted(p for p in folder.rglob("*") if p.is_file() and not p.name.startswith(".")):
            whole.update(f"{number}/{path.relative_to(folder).as_posix()}\0".encode())
            whole.update(hashlib.sha256(path.read_bytes()).digest())
    return whole.hexdigest()[:12]


def _git(folder: Path, *words: str) -> str:
    """What git says; nothing where there is no git, or no history."""
    try:
        done = subprocess.run(["git", "-C", str(folder), *words], capture_output=True, text=True, check=False)
    except OSError:
        return ""
    return done.stdout.strip() if done.returncode == 0 else ""


def _releases(path: Path) -> Iterator[Release]:
    text = path.read_text(encoding="utf-8") if path.is_file() else ""
    for title, body in _RELEASE.findall(text):
        records, month = _ABOUT_RECORDS.search(body), _MONTH.search(title)
        points = _POINT.findall(records[1]) if records else []
        yield Release(title, "-".join(month.groups()) if month else "", tuple(" ".join(p.split()) for p in points))
