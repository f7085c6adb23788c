"""The check of a whole book, which goes on from what the last one found.

Kept between runs are the data of sound files, and beside them what was found: each under a fingerprint of the code, the
schema and the names of the folders, so that of a file with other bytes than then it is known what stood in it.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from generator.carried import carried
from generator.kept import Kept
from generator.records.finding import Finding
from generator.records.model import Records
from generator.records.picture_files import FOLDER as PICTURES
from generator.uncollected import uncollected

if TYPE_CHECKING:
    from generator.records.again import Checked
    from generator.records.printed import Printed
    from generator.records.rules import Book, Rule
    from generator.records.sound_files import SoundFiles

_HERE = Path(__file__).parent
_CODE = ("records", "content_rules", "standards", "analysis")
"Folders of the code that reads and checks."
_BELOW = ("carried.py", "checked.py", "graph.py", "kept.py", "typed_json.py", "uncollected.py", "whole_files.py")
"What these rest on beside one another."
_READ = (".yaml", ".yml", ".json", ".py")
MOST = 4
"Sets of records kept: those of a shop, of the shared folder alone, and of what stood before an edit."


@dataclass(frozen=True, slots=True)
class Found:
    """What a check says of a book."""

    findings: tuple[Finding, ...]
    "Everything that is wrong, sorted."
    count: int
    "How many records there are."
    records: Records | None
    "All good ones, where they had to be read."


@uncollected
def check(folders: Sequence[Path], cache: Path) -> Found:
    """Everything that is wrong by any rule. After an edit only the rules that see something else in it look at the whole book."""
    from generator.content_rules import ALL_RULES  # loads YAML and all rules: slow, and not needed for kept records
    from generator.records.again import Checked, again, differing, edit, onward, whole
    from generator.records.load import with_own
    from generator.records.printed import printed

    state, sound = printed(folders), SoundBook(folders, cache)
    kept: Kept[Checked] = Kept(cache, "checked", Checked, MOST)
    before = kept.read(sound.name) if state else None
    few = differing(before, state) if before and state else None
    made = edit(before, state, few, folders, sound.known) if before and state and few is not None else None
    found, asked = again(made, ALL_RULES) if made else ([], ALL_RULES)
    if made and not asked:
        return Found(_sorted(found), made.count, None)
    book = sound.read()
    if not sound.was(state):
        made = None  # files have been changed meanwhile
    now = _found(book, found, asked) if made else _found(book, book.content.findings, ALL_RULES)
    if few is None or not any(finding.level == "error" for finding in now):  # after a fault, the sound state before it is gone on from
        sound.keep()
        if state and sound.was(state):
            _keep(kept, sound.name, onward(made, book, now, ALL_RULES, asked) if made else whole(book, now, ALL_RULES, state))
    return Found(_sorted(now), len(book.records.places), with_own(book.records, folders))


def _found(book: Book, known: Iterable[Finding], rules: Iterable[Rule]) -> list[Finding]:
    return [*known, *(finding for rule in rules for finding in rule.run(book))]


def _keep(kept: Kept[Checked], name: str, checked: Checked | None) -> None:
    if checked:
        kept.write(name, checked)
        kept.prune()


@dataclass(frozen=True, slots=True)
class _Sound:
    """Files that had no fault."""

    files: Mapping[str, str]
    "See `SoundFiles.met`."


class SoundBook:
    """The book in content folders; the data of its sound files is kept between runs."""

    def __init__(self, folders: Sequence[Path], cache: Path) -> None:
        self.folders = folders
        self.name = print_of(files_in(code()), folders)
        self._kept: Kept[_Sound] = Kept(cache, "files", _Sound, MOST)
        self._met: SoundFiles | None = None

    def known(self, print: str) -> str | None:
        """The data of a sound file, by the print of its bytes; None where it is not kept."""
        return self._kept.text(self.name, print)

    def read(self) -> Book:
        """All of it; of files that were sound before, only the bytes are read."""
        from generator.records.load import open_book
        from generator.records.sound_files import SoundFiles  # loads YAML: slow

        before = self._kept.read(self.name)
        self._met = SoundFiles(before.files if before else {})
        return open_book(self.folders, self._met)

    def was(self, state: Printed | None) -> bool:
        """Whether it was in that state when it was read."""
        return bool(state and self._met and self._met.met.keys() <= set(state.files.values()))

    def keep(self) -> None:
        """Keep what was sound when it was read."""
        if self._met and self._met.is_another:
            self._kept.write(self.name, _Sound(self._met.met))
            self._kept.prune()


def code() -> list[Path]:
    """Folders of all that says how records are read and checked."""
    return [carried("schema"), *(_HERE / name for name in _CODE)]


def files_in(folders: Iterable[Path]) -> Iterator[str]:
    """Paths of the files of folders that could change what is read."""
    for folder in folders:
        below = ((top, name) for top, within, files in os.walk(folder) for name in (*within, *files))
        pictures = str(folder / PICTURES)
        yield from sorted(os.path.join(top, name) for top, name in below if name.endswith(_READ) or top == pictures)
    yield from (str(_HERE / name) for name in _BELOW)


def print_of(files: Iterable[str], named: Iterable[Path] = ()) -> str:
    """Of the names and bytes of files, and of names alone."""
    digest = hashlib.sha256()
    for path in files:
        digest.update(f"\0{path}\0{os.path.islink(path)}\0".encode(errors="surrogateescape"))
        digest.update(_bytes(path))
    for name in named:
        digest.update(f"\0{name}".encode(errors="surrogateescape"))
    return digest.hexdigest()[:40]


def _bytes(path: str) -> bytes:
    """What stands in a plain file; nothing of what is none."""
    if not os.path.isfile(path):
        return b""
    with open(path, "rb", buffering=0) as file:
        return file.readall()


def _sorted(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(sorted(set(findings)))
