"""The records as they stood at a revision of git."""

from __future__ import annotations

import io
import os
import subprocess
import tempfile
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath
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
    if rev.startswith("-"):
        common.refuse(f"'{rev}' is no revision: a revision does not begin with '-'.")
    with tempfile.TemporaryDirectory() as folder:
        if len(content) == 1:
            then = _prints_at(rev, content[0])
            differing = _differing(then, _prints_now(rev, content[0]))
            if then and len(differing) <= _FEW:
                unpacked = _unpacked(rev, content[0], Path(folder, "few"), [name for name in differing if name in then])
                return _partly(rev, unpacked, differing, now)
        return _sound(rev, *load_checked([_unpacked(rev, path, Path(folder, str(n)), ["."]) for n, path in enumerate(content)]))


def _sound(rev: str, records: Records, findings: Iterable[Finding]) -> Records:
    errors = sum(f.level == "error" for f in findings)
    if errors:
        common.refuse(f"The records at {rev} have {errors} errors, so there is nothing sound to compare with.")
    return records


def _prints_at(rev: str, path: Path) -> dict[str, str]:
    """Name below the content folder -> git's name for the bytes of that record file at a revision."""
    entries = _git(rev, path, "ls-tree", "-r", "-z", rev, "--", ".").split(b"\0")
    told = (os.fsdecode(entry).partition("\t") for entry in entries if entry)
    return {name: about.split()[2] for about, _, name in told if name.endswith(".yaml")}


def _prints_now(rev: str, path: Path) -> dict[str, str]:
    """The same of the files as they stand, read as git would take them in; of a name that cannot be asked for, nothing."""
    top, _, below = os.fsdecode(_git(rev, path, "rev-parse", "--show-toplevel", "--show-prefix")).partition("\n")
    there = list(_record_files(path))
    asked = [name for name in there if "\n" not in name]
    lines = os.fsencode("".join(f"{below.rstrip()}{name}\n" for name in asked))
    done = subprocess.run(["git", "-C", top, "hash-object", "--stdin-paths"], input=lines, capture_output=True, check=False)
    return {**dict.fromkeys(there, ""), **dict(zip(asked, done.stdout.decode().split(), strict=False))}


def _record_files(path: Path) -> Iterator[str]:
    """Their names below a folder, with `/` as git writes it."""
    for top, _, files in os.walk(path):
        below = Path(top).relative_to(path).as_posix()
        lead = "" if below == "." else f"{below}/"
        yield from (f"{lead}{name}" for name in files if name.endswith(".yaml") and os.path.isfile(os.path.join(top, name)))


def _differing(then: Mapping[str, str], now: Mapping[str, str]) -> list[str]:
    """Names of files that are not the same in both, or in one alone."""
    return sorted(name for name in then.keys() | now.keys() if then.get(name) != now.get(name))


def _unpacked(rev: str, path: Path, root: Path, names: Sequence[str]) -> Path:
    """A new folder with the files of these names, or below them, as they were."""
    root.mkdir()
    if names:
        with zipfile.ZipFile(io.BytesIO(_git(rev, path, "archive", "--format=zip", rev, "--", *names))) as packed:
            packed.extractall(root)
    return root


def _git(rev: str, path: Path, *asked: str) -> bytes:
    """What git says of a folder; refuses where it has not what is asked."""
    done = subprocess.run(["git", "--literal-pathspecs", "-C", str(path), *asked], capture_output=True, check=False)
    if done.returncode:
        common.refuse(f"git cannot give {path} at '{rev}': {done.stderr.decode().strip().splitlines()[-1]}.")
    return done.stdout


def _partly(rev: str, root: Path, differing: Sequence[str], now: Records) -> Records:
    """Today's records with those of the differing files as they were."""
    records, findings = load([root], rules=())
    was = _sound(rev, records, findings)
    groups: dict[str, Any] = {}
    for name in map(PurePosixPath, differing):
        kind = BY_PLACE.get(str(name)) or BY_PLACE.get(str(name.parent))
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
