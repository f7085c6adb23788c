"""Records kept between runs under a fingerprint of all that they were read from."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from generator.carried import carried
from generator.kept import Kept
from generator.records.finding import Finding
from generator.records.model import Records
from generator.records.picture_files import FOLDER as PICTURES
from generator.uncollected import uncollected

_HERE = Path(__file__).parent
_CODE = ("records", "content_rules", "standards")
"Folders of the code that reads and checks."
_READ = (".yaml", ".yml", ".json", ".py")
MOST = 4
"Sets of records kept: those of a shop, of the shared folder alone, and of what stood before an edit."


@dataclass(frozen=True, slots=True)
class _Sound:
    """Files that had no fault."""

    files: Mapping[str, str]
    "See `SoundFiles.met`."


@uncollected
def load_kept(folders: Sequence[Path], cache: Path) -> tuple[Records, tuple[str, ...]]:
    """The records and the text of their errors; read anew only if a file changed.

    Records that come from here do not know where their values stand: that is for whoever mends them.
    """
    kept: Kept[Records] = Kept(cache, "records", Records, MOST)
    name = _fingerprint(folders)
    found = kept.read(name)
    if found:
        return found, ()
    records, errors = _read(folders, cache)
    if not errors:
        _write(kept, name, records)  # in the place of what cannot be read too
    return records, errors


@uncollected
def read_and_check(folders: Sequence[Path], cache: Path) -> tuple[Records, tuple[Finding, ...]]:
    """All good records, and everything that is wrong by any rule; of files that were sound before, only the bytes are read."""
    from generator.content_rules import load_checked  # imports the validator: slow, and not needed for kept records
    from generator.records.sound_files import SoundFiles  # the same of YAML

    kept: Kept[_Sound] = Kept(cache, "files", _Sound, MOST)
    name = _print(_files(_code()), folders)
    before = kept.read(name)
    files = SoundFiles(before.files if before else {})
    found = load_checked(folders, files)
    if files.is_another:
        kept.write(name, _Sound(files.met))
        kept.prune()
    return found


@uncollected
def keep(folders: Sequence[Path], cache: Path, records: Records) -> None:
    """Keep records that were read and found without a fault, for whoever asks next, where they are not kept already."""
    kept: Kept[Records] = Kept(cache, "records", Records, MOST)
    name = _fingerprint(folders)
    if not kept.has(name):
        _write(kept, name, records)


def _write(kept: Kept[Records], name: str, records: Records) -> None:
    kept.write(name, replace(records, places={}))
    kept.prune()


def _read(folders: Sequence[Path], cache: Path) -> tuple[Records, tuple[str, ...]]:
    from generator.records.report import as_text

    records, findings = read_and_check(folders, cache)
    return replace(records, places={}), tuple(as_text([f]).rstrip() for f in findings if f.level == "error")


def _fingerprint(folders: Sequence[Path]) -> str:
    """Of everything that could change what is read: content, schema, and the reader's own code."""
    return _print(_files((*folders, *_code())))


def _code() -> list[Path]:
    return [carried("schema"), *(_HERE / name for name in _CODE)]


def _files(folders: Iterable[Path]) -> Iterator[str]:
    for folder in folders:
        below = ((top, name) for top, within, files in os.walk(folder) for name in (*within, *files))
        pictures = str(folder / PICTURES)
        yield from sorted(os.path.join(top, name) for top, name in below if name.endswith(_READ) or top == pictures)
    yield str(_HERE / "typed_json.py")


def _print(files: Iterable[str], named: Iterable[Path] = ()) -> str:
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
