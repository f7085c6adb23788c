"""`python -m tests.edits.checked N [CONTENT]`: N edits of record files by chance; after each, `check` that goes on from before against one anew.

Ends with 1 where they do not find the same.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import Any

from generator.checked import Found, check
from generator.content_rules import ALL_RULES, load_checked
from generator.records import again
from generator.records.finding import Finding
from generator.records.sound_files import SoundFiles
from tests.edits.of_files import edit

ROOT = Path(__file__).parents[2]
SEED = 200


@dataclass(frozen=True, slots=True)
class Tried:
    """What came of an edit."""

    what: str
    "The edit."
    differ: tuple[Finding, ...]
    "What only one of the two ways finds."
    count_differs: bool
    "Whether they count other records."
    found: int
    "How much was wrong."
    spared: int
    "How many rules were not asked of the whole book."


def tried(folders: Sequence[Path], edited: Path, cache: Path, edits: int, chance: Random) -> Iterator[Tried]:
    """Edits one of the folders; now and then it is put back as it was, or as it was an edit before."""
    first = edited.with_name("first")
    shutil.copytree(edited, first)
    files = SoundFiles()
    check(folders, cache)
    for _ in range(edits):
        what = edit(edited, chance)
        now, spared = _checked(folders, cache)
        files = SoundFiles(files.met)
        records, findings = load_checked(folders, files)
        differ = set(now.findings) ^ set(findings)
        yield Tried(what, tuple(sorted(differ)), now.count != len(records.places), len(findings), spared)
        if chance.random() < 0.7:
            shutil.rmtree(edited)
            shutil.copytree(first, edited)
            if chance.random() < 0.5:
                check(folders, cache)


def _checked(folders: Sequence[Path], cache: Path) -> tuple[Found, int]:
    """A check, and how many rules it did not ask of the whole book."""
    honest, asked = again.again, [len(ALL_RULES)]

    def noted(*of: Any) -> Any:
        found, rules = honest(*of)
        asked[0] = len(rules)
        return found, rules

    again.again = noted
    try:
        return check(folders, cache), len(ALL_RULES) - asked[0]
    finally:
        again.again = honest


def main(edits: int, content: Path) -> int:
    """How many edits were told of in two ways."""
    wrong = spared = faulty = 0
    with tempfile.TemporaryDirectory() as work:
        edited = Path(shutil.copytree(content, Path(work, "content")))
        for number, one in enumerate(tried([edited], edited, Path(work, "cache"), edits, Random(SEED))):
            bad = bool(one.differ) or one.count_differs
            wrong, spared, faulty = wrong + bad, spared + (one.spared == len(ALL_RULES)), faulty + bool(one.found)
            print(f"{number + 1:4}  {'DIFFERS' if bad else 'the same'}, {one.found} findings, {one.spared} rules spared: {one.what} {one.differ[:3]}", flush=True)
    print(f"{edits} edits, {wrong} with findings that differ; {faulty} left something wrong, {spared} were told of without the book being read.")
    return wrong


if __name__ == "__main__":
    raise SystemExit(bool(main(int(sys.argv[1]), Path(sys.argv[2] if sys.argv[2:] else ROOT / "content"))))
