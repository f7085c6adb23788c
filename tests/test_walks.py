"""The walks of DEVELOPERS.md, followed to the letter in a copy of the project."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
_STEP = re.compile(
    r"^(?:Create `(?P<new>[^`]+)`|In `(?P<old>[^`]+)`, before the line that begins with `(?P<anchor>[^\n]+)`):\n\n"
    r"```\w+\n(?P<text>.*?)```$|^```sh\n(?P<run>.*?)```$",
    re.MULTILINE | re.DOTALL,
)
_LEFT = shutil.ignore_patterns(".git", ".venv", ".cache", ".hypothesis", ".*_cache", "__pycache__", "site", "node_modules")


def walk(heading: str) -> list[re.Match[str]]:
    """The steps under a heading: files to make, lines to put in, commands to run."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition(f"\n### {heading}\n")[2]
    text = re.split(r"^##", text, maxsplit=1, flags=re.MULTILINE)[0]
    steps = list(_STEP.finditer(text))
    assert sum(step["run"] is None for step in steps) * 2 + sum(step["run"] is not None for step in steps) * 2 == text.count("```")
    return steps


def follow(copy: Path, steps: list[re.Match[str]]) -> str:
    """Do the steps, and give back what the commands say."""
    told = []
    for step in steps:
        if step["run"]:
            told += [run(copy, line) for line in step["run"].splitlines()]
        elif step["new"]:
            path = copy / step["new"]
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(step["text"], "utf-8")
        else:
            put(copy / step["old"], step["anchor"], step["text"])
    return "\n".join(told)


def put(path: Path, anchor: str, text: str) -> None:
    lines = path.read_text("utf-8").splitlines(keepends=True)
    place = next(n for n, line in enumerate(lines) if line.strip().startswith(anchor))
    path.write_text("".join([*lines[:place], text, *lines[place:]]), "utf-8")


def run(copy: Path, line: str) -> str:
    words = line.split()
    assert words[0] == "python"
    done = subprocess.run([sys.executable, *words[1:]], cwd=copy, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    return shutil.copytree(ROOT, tmp_path / "copy", ignore=_LEFT)


def test_a_rule_is_added(copy: Path) -> None:
    told = follow(copy, walk("Add a rule about the content"))
    assert "title-without-stop (check)" in told
    assert "Bad, in checks/watch-hook.yaml:" in told
    assert "no problems" in told


def test_a_key_is_added_and_shown_on_a_page_and_on_a_job_sheet(copy: Path) -> None:
    told = follow(copy, walk("Add a key to a record, and show it"))
    assert "Scribe a line across the gear and its shaft." in told
    page = run(copy, f"python {write_page(copy)}")
    assert "<dt>Mark first</dt><dd>Scribe a line across the gear and its shaft.</dd>" in page


def write_page(copy: Path) -> Path:
    """A script that prints the page of the mechanism."""
    script = copy / "page.py"
    script.write_text(
        "from pathlib import Path\n"
        "from generator.bench import Bench\n"
        "from generator.content_rules import load_checked\n"
        "from generator.library import Library\n"
        "from generator.pages.maker import Maker\n"
        "from generator.pages.records import assemblies\n"
        "pages = assemblies.piece(Maker(Bench(Library(load_checked([Path('content')])[0])))).pages()\n"
        "print(next(page.html for page in pages if page.address == 'assemblies/rotary-hook-geared.html'))\n"
    )
    return script
