"""Records kept between runs under a fingerprint of all that they were read from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from generator.checked import MOST, SoundBook, check, code, files_in, print_of
from generator.kept import Kept
from generator.records.finding import Finding
from generator.records.model import Records
from generator.uncollected import uncollected


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
    from generator.records.load import with_own  # loads YAML: slow, and not needed for kept records

    found = check(folders, cache)
    return found.records or with_own(SoundBook(folders, cache).read().records, folders), found.findings


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
    return print_of(files_in((*folders, *code())))
