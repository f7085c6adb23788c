"""How long commands take on a book of 20,000 records and on the real content.

The book is a made library with all that fails on its mechanisms. *Cold*: nothing kept from before. *Warm*: the records
kept. Each command is a process of its own, its start included; the figure is time of the processor.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest
import yaml

from tests.benchmarks.figures import Figures
from tests.benchmarks.made_library import CONTENT, write
from tests.benchmarks.made_slices import Size
from tests.benchmarks.measured import measured

FAMILIES = 1150
"""With about 17 records each, lists and shared ones among them, a little over 20,000."""
COLD, WARM, ONE_RECORD, RANK, COMPARE = 20.0, 3.0, 1.0, 0.3, 5.0
"Seconds aimed at."
_RUNS = 3


@pytest.fixture(scope="module")
def many(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with many records, in git."""
    print(f"\n{FAMILIES} families are made ...", flush=True)
    project = tmp_path_factory.mktemp("many")
    write(project / "content", FAMILIES, size=Size(None, None))
    _git(project)
    return project


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The real content, in git."""
    project = tmp_path_factory.mktemp("real")
    shutil.copytree(CONTENT, project / "content")
    _git(project)
    return project


def _git(project: Path) -> None:
    name = ("-c", "user.name=Bench", "-c", "user.email=bench@example.org")
    for command in (("init", "-q"), ("add", "content"), (*name, "commit", "-qm", "All records")):
        subprocess.run(["git", *command], cwd=project, check=True, capture_output=True)


def test_commands_on_the_real_content(real: Path, figures: Figures) -> None:
    _commands(real, figures, ("skipped-stitches", "tessaly-40"), None, None)


def test_commands_on_a_large_book(many: Path, figures: Figures) -> None:
    path = min((many / "content" / "families").iterdir())
    family = yaml.safe_load(path.read_text(encoding="utf-8"))
    _commands(many, figures, (family["symptoms"][0], path.stem), COLD, WARM)


def _commands(project: Path, figures: Figures, complaint: tuple[str, str], cold: float | None, warm: float | None) -> None:
    """Times what a person types, in the order in which it is typed; `complaint` is a symptom of a family."""
    of = f"{sum(1 for _ in (project / 'content').rglob('*.yaml')):,} files"
    figures.add(f"{of}: read and checked cold", _times(project, "check", runs=1), "s", cold)
    mode = sorted((project / "content" / "failure-modes").iterdir())[0]
    _change(mode, "seen: ", "seen: 1")
    figures.add(f"{of}: `check` of one record that was changed", _times(project, "check", str(mode.relative_to(project)), runs=1), "s", ONE_RECORD)
    _change(mode, "title: ", "title: Looper, ")  # a word that only some machines have: who speaks of it is asked of the whole book
    figures.add(f"{of}: `check` of one record that says what the whole book must be asked about", _times(project, "check", str(mode.relative_to(project)), runs=1), "s")
    rank = ("rank", complaint[0], "-f", complaint[1])
    _times(project, *rank, runs=1)  # the order of its checks is kept from here on
    figures.add(f"{of}: read warm, for one answer", _times(project, *rank), "s", warm)
    figures.add(f"{of}: `rank`", figures.all[-1].values, "s", RANK)
    figures.add(f"{of}: `compare` of a change to one record", _times(project, "compare", "HEAD", runs=1), "s", COMPARE)


def _times(project: Path, *command: str, runs: int = _RUNS) -> Sequence[float]:
    print(f"{' '.join(command)} ...", flush=True)
    return [measured(["-m", "generator", *command], project).processor for _ in range(runs)]


def _change(mode: Path, was: str, now: str) -> None:
    text = mode.read_text(encoding="utf-8")
    mode.write_text(text.replace(was, now, 1), encoding="utf-8")
