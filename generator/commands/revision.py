"""The records as they stood at a revision of git."""

from __future__ import annotations

import io
import subprocess
import tempfile
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from generator.commands import common
from generator.content_rules import load_checked
from generator.records.finding import Finding
from generator.records.kinds import BY_PLACE
from generator.records.load import load
from generator.records.model import Records, Shop

_FEW = 60
"Files that differ up to which only these are read; a commit that went through `check` needs no second look at the rest."


def records_at(rev: str, content: Sequence[Path], now: Records) -> Records:
    """The records at a revision; `now` are those of today. Refuses where there is no such revision, or it was not sound."""
    with tempfile.TemporaryDirectory() as folder:
        roots = [_unpacked(rev, path, Path(folder, str(number))) for number, path in enumerate(content)]
        differing = _differing(content[0], roots[0]) if len(roots) == 1 else None
        if differing is not None and len(differing) <= _FEW:
            return _partly(rev, roots[0], differing, now)
        return _sound(rev, *load_checked(roots))


def _sound(rev: str, records: Records, findings: Iterable[Finding]) -> Records:
    errors = sum(f.level == "error" for f in findings)
    if errors:
        common.refuse(f"The records at {rev} have {errors} errors, so there is nothing sound to compare with.")
    return records


def _unpacked(rev: str, path: Path, root: Path) -> Path:
    root.mkdir()
    with zipfile.ZipFile(io.BytesIO(_archive(rev, path))) as packed:
        packed.extractall(root)
    return root


def _archive(rev: str, path: Path) -> bytes:
    if rev.startswith("-"):
        common.refuse(f"'{rev}' is no revision: a revision does not begin with '-'.")
    done = subprocess.run(
        ["git", "-C", str(path), "archive", "--format=zip", rev, "--", "."], capture_output=True, check=False
    )
    if done.returncode:
        common.refuse(f"git cannot give {path} at '{rev}': {done.stderr.decode().strip().splitlines()[-1]}.")
    return done.stdout


def _differing(now: Path, before: Path) -> list[Path]:
    """Record files, below the content folder, that are not the same in both."""
    names = {p.relative_to(root) for root in (now, before) for p in root.rglob("*.yaml") if p.is_file()}
    return sorted(name for name in names if _bytes(now / name) != _bytes(before / name))


def _bytes(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _partly(rev: str, root: Path, differing: Sequence[Path], now: Records) -> Records:
    """Today's records with those of the differing files as they were."""
    for path in [p for p in root.rglob("*.yaml") if p.relative_to(root) not in set(differing)]:
        path.unlink()
    records, findings = load([root], rules=())
    was = _sound(rev, records, findings)
    groups: dict[str, Any] = {}
    for name in differing:
        kind = BY_PLACE.get(name.as_posix()) or BY_PLACE.get(name.parent.as_posix())
        if kind is None:
            continue
        if kind.name == "shop":
            groups["shop"] = was.shop if (root / name).is_file() else Shop()
        elif kind.is_list:
            groups[kind.group] = getattr(was, kind.group)
        else:
            groups[kind.group] = _laid(groups.get(kind.group, getattr(now, kind.group)), getattr(was, kind.group), name.stem)
    return replace(now, **groups)


def _laid(now: Mapping[str, Any], was: Mapping[str, Any], id: str) -> dict[str, Any]:
    """One record put back to what it was, the others left; by id."""
    left = {key: value for key, value in now.items() if key != id}
    return dict(sorted({**left, **({id: was[id]} if id in was else {})}.items()))
