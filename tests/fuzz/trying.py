"""One spoilt record tried: among the sound records, or a real one alone in a folder."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.bench import Bench
from generator.content_rules import load_checked
from generator.library import Library
from generator.records.report import FORMATS
from tests.fuzz.spoiling import spoilt

ROOT = Path(__file__).parents[2]
SOUND = ROOT / "tests" / "records" / "sound"


@dataclass(frozen=True)
class Mutant:
    """A spoilt record."""

    name: str
    "Its place in the content folder."
    raw: bytes
    alone: bool
    "Whether nothing else is in the folder."


def mutants(seed: int) -> Iterator[Mutant]:
    """Without end, the same for the same seed."""
    chance = random.Random(seed)
    pools = [(folder, sorted(folder.rglob("*.yaml"))) for folder in (SOUND, ROOT / "content")]
    while True:
        folder, files = chance.choice(pools)
        path = chance.choice(files)
        yield Mutant(path.relative_to(folder).as_posix(), spoilt(path.read_bytes(), chance), folder != SOUND)


def tried(mutant: Mutant, work: Path) -> str:
    """'findings' or 'sound'; whatever it raises is a fault of the reader."""
    content = work / ("alone" if mutant.alone else "sound")
    if not content.exists():
        content.mkdir() if mutant.alone else shutil.copytree(SOUND, content)
    path = content / mutant.name
    before = path.read_bytes() if path.exists() else None
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(mutant.raw)
    try:
        return _read(content)
    finally:
        path.write_bytes(before) if before is not None else path.unlink()


def _read(content: Path) -> str:
    records, findings = load_checked([content])
    for form in FORMATS.values():
        form(findings).encode("utf-8")
    if any(finding.level == "error" for finding in findings):
        return "findings"
    for complaint in Bench(Library(records)).complaints():
        assert complaint.case.hypotheses
    return "sound"
