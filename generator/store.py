"""Records kept between runs under a fingerprint of all that they were read from."""

from __future__ import annotations

import hashlib
import pickle
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from generator.records.model import Records

_HERE = Path(__file__).parent


def load_kept(folders: Sequence[Path], cache: Path) -> tuple[Records, tuple[str, ...]]:
    """The records and the text of their errors; read anew only if a file changed.

    Records that come from here do not know where their values stand: that is for whoever mends them.
    """
    path = cache / f"records-{_fingerprint(folders)}.pickle"
    return _kept(path) or _read(folders, path)


def _fingerprint(folders: Sequence[Path]) -> str:
    digest = hashlib.sha256()
    for path in _all_files(folders):
        digest.update(f"\0{path}\0{path.is_symlink()}\0".encode(errors="surrogateescape"))
        digest.update(path.read_bytes() if path.is_file() else b"")
    return digest.hexdigest()[:40]


def _all_files(folders: Sequence[Path]) -> Iterator[Path]:
    """Everything that could change what is read: content, schema, and the reader's own code."""
    for folder in (*folders, _HERE.parent / "schema", _HERE / "records", _HERE / "standards"):
        yield from sorted(p for p in folder.rglob("*") if p.suffix in (".yaml", ".yml", ".json", ".py"))


def _kept(path: Path) -> tuple[Records, tuple[str, ...]] | None:
    try:
        found = pickle.loads(path.read_bytes())
    except Exception:  # whatever a torn or foreign file raises, the records are read again
        return None
    return found if isinstance(found, tuple) and len(found) == 2 else None


def _read(folders: Sequence[Path], path: Path) -> tuple[Records, tuple[str, ...]]:
    """Reads and checks; only records without a fault are kept."""
    from generator.content_rules import (
        load_checked,  # imports the validator: slow, and not needed for kept records
    )
    from generator.records.report import as_text

    records, findings = load_checked(folders)
    records = replace(records, places={})
    errors = tuple(as_text([f]).rstrip() for f in findings if f.level == "error")
    if not errors:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            part = path.with_suffix(".part")
            part.write_bytes(pickle.dumps((records, errors)))
            part.replace(path)
        except OSError:
            pass
    return records, errors
