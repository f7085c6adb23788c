"""No real maker, model, mark or product anywhere in what is tracked.

The list is of fingerprints, from memory: makers of sewing machines past and present, their marks, marks of needles,
thread, oil, fibres and tools, and marks that people use for the thing. `python -m tests.names.add` adds to it.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.names.add import with_names
from tests.names.reading import KNOWN, fingerprint, known, names_in

_FEWEST = 400
"Fingerprints under which the list has been cut short."


def tracked() -> list[Path]:
    """Every file that the project keeps."""
    if shutil.which("git") is None or not (ROOT / ".git").exists():
        pytest.skip("Only a checkout knows what is tracked.")
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True).stdout
    return [ROOT / name for name in listed.decode().split("\0") if name]


def _lines(path: Path) -> Iterator[tuple[int, str]]:
    """The lines of a file, its own name first; a picture has only its name."""
    yield 0, path.relative_to(ROOT).as_posix()
    try:
        yield from enumerate(path.read_text(encoding="utf-8").split("\n"), 1)
    except UnicodeDecodeError:
        return


def test_no_real_mark_or_maker_stands_anywhere() -> None:
    marks, seen, found = known(), {}, []
    for path in tracked():
        if not path.is_file() or path == KNOWN:
            continue
        for number, line in _lines(path):
            for name in names_in(line):
                if name not in seen:
                    seen[name] = fingerprint(name) in marks
                if seen[name]:
                    found.append(f"{path.relative_to(ROOT)}:{number}: {name}")
    assert not found, "Say what the thing is, or invent a name:\n" + "\n".join(sorted(found))


def test_the_list_is_whole_and_in_order() -> None:
    marks = KNOWN.read_text(encoding="ascii").split("\n")[:-1]
    assert marks == sorted(set(marks)) and len(marks) >= _FEWEST
    assert all(len(mark) == 16 and int(mark, 16) >= 0 for mark in marks)


@pytest.mark.parametrize(
    "text",
    ["a Zorvex needle", "ZORVEX", "by zorvex.", "zorvex_case", "pre-zorvex", "the zorvex's", "quilo zorv", "quilo-zorv", "„Zorvex“", "The Plainword"],
)
def test_a_name_is_found_however_it_is_written(text: str) -> None:
    listed = with_names(frozenset(), ["zorvex\n", "quilo  zorv", "\n", "Plainword"]).split()
    assert any(fingerprint(name) in listed for name in names_in(text))


def test_a_mark_typed_with_a_capital_leaves_the_word_alone() -> None:
    listed = with_names(frozenset(), ["Plainword"]).split()
    assert not any(fingerprint(name) in listed for name in names_in("a plainword"))
