"""For each rule, records that break it and the same records mended: the cases that the tests hold it to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.carried import carried
from generator.records.picture_files import FOLDER as PICTURES

CASES = carried("tests/records/negative")
"One folder a case, named after the rule: content/ is bad, mended/ is good, expected.txt is what is said of the bad."


@dataclass(frozen=True, slots=True)
class Case:
    """Records that break a rule, laid over sound ones."""

    bad: Mapping[str, str]
    "Place below the content folder -> text of the record."
    said: tuple[str, ...]
    "The findings, a line each."
    good: Mapping[str, str]
    "The same, mended."


def case_of(rule: str) -> Case | None:
    """The first case of a rule that shows how it is mended; None where the cases are not at hand."""
    for folder in sorted(CASES.glob(f"*{rule}*")):
        named = folder.name.partition("--")[0].split("+")
        if rule in named and (folder / "mended").is_dir():
            said = (folder / "expected.txt").read_text("utf-8").splitlines()
            return Case(_files(folder / "content"), tuple(said), _files(folder / "mended"))
    return None


def _files(folder: Path) -> dict[str, str]:
    paths = sorted(path for path in folder.rglob("*") if path.is_file() and path.parent != folder / PICTURES)
    return {path.relative_to(folder).as_posix(): path.read_text("utf-8") for path in paths}
