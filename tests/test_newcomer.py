"""A newcomer's walk: a machine from an empty file as the guide has it, then what the workflow of a pull request runs."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from generator.__main__ import main
from generator.commands.check import check
from generator.commands.new import new
from tests.conftest import ROOT
from tests.test_walks import _STEP, put

GUIDE = ROOT / "content" / "guides" / "a-machine-from-an-empty-file.md"
SOUND = ROOT / "tests" / "records" / "sound"


def git(*words: str) -> None:
    subprocess.run(["git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words], check=True, capture_output=True)


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The records alone in a repository of their own, and what was worked out of them before."""
    shutil.copytree(ROOT / "content", tmp_path / "content")
    if (ROOT / ".cache").is_dir():
        (tmp_path / ".cache").symlink_to(ROOT / ".cache")
    monkeypatch.chdir(tmp_path)
    for words in (("init",), ("add", "content"), ("commit", "-m", "before")):
        git(*words)
    return tmp_path


def test_a_machine_from_an_empty_file_is_sound_compared_and_passes_the_workflow(clone: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = {}
    steps = list(_STEP.finditer(GUIDE.read_text("utf-8")))
    assert sum(step["new"] is not None for step in steps) >= 13 and steps[-1]["run"]
    for step in steps:
        if step["new"]:
            path = clone / step["new"]
            path.parent.mkdir(exist_ok=True)
            path.write_text(step["text"], "utf-8")
        elif step["old"]:
            put(clone / step["old"], step["anchor"], step["text"])
        else:
            told |= {line: asked(line) for line in step["run"].splitlines()}
    assert told["python -m generator check"].splitlines()[-1].endswith("records: 1 warning.")
    assert "Leather belt slack  (4 of 4 bench jobs with this complaint)" in told["python -m generator rank treadle-runs-on-alone -f fennmoor-t"]
    said = told["python -m generator compare HEAD"]
    assert "fennmoor-t; complaint: The feet go on and the machine stops; minutes:" in said
    assert "not named: it falls to the outcome for all else" in said
    summary = run_workflow(clone, monkeypatch)
    assert "### New records" in summary and "| family | fennmoor-t | Fennmoor Treadle |" in summary


def asked(line: str) -> str:
    """What a command of the guide says, asked in this process."""
    done = CliRunner().invoke(main, line.split()[3:])
    assert done.exit_code == 0, done.output
    return done.output


def run_workflow(clone: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Runs the two steps that read the records just as they stand; the others install, test and build as `make` does."""
    tools = clone / "tools"
    tools.mkdir()
    (tools / "python").write_text(f'#!/bin/sh\nexec "{sys.executable}" "$@"\n', "utf-8")  # a link would forget its environment
    (tools / "python").chmod(0o755)
    whole = yaml.safe_load((ROOT / ".github" / "workflows" / "content.yml").read_text("utf-8"))
    lines = {step["name"]: step["run"] for step in whole["jobs"]["records"]["steps"] if "name" in step and "run" in step}
    given = {"BASE": "HEAD", "GITHUB_STEP_SUMMARY": "summary.md", "PYTHONPATH": str(ROOT), "PATH": f"{tools}:{os.environ['PATH']}"}
    for name in ("Check the records", "Say what the change does"):
        done = subprocess.run(["bash", "-e", "-c", lines[name]], env={**os.environ, **given}, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stdout + done.stderr
    return (clone / "summary.md").read_text("utf-8")


MODE = "title: Felt dry\npart: hook-felt\nseen: 5\nremedy: {clean: [hook-felt], minutes: 2}\n"
MISTAKES = {
    "a word misspelt as a key": ("failure-modes/felt-dry.yaml", MODE.replace("remedy", "remdy"), "4:1: 'remdy' is no key that can stand here. Did you mean 'remedy'? [schema]"),
    "a part that is not there": ("failure-modes/felt-dry.yaml", MODE.replace("part: hook-felt", "part: hook-flet"), "2:7: 'hook-flet' is no part. Did you mean 'hook-felt'? [names-exist]"),
    "a colon in a text": ("failure-modes/felt-dry.yaml", MODE.replace("Felt dry", "Felt: dry"), "1:12: A colon followed by a space stands inside text that has no quotes. Put the whole text in quotes, or mend the indentation of this line. [file]"),
    "a mode that no tree names": ("failure-modes/felt-dry.yaml", MODE, "1:1: warning: 'felt-dry' is in no fault tree. Put it in a symptom's tree, or take it away. [mode-in-a-tree]"),
    "work without its minutes": ("failure-modes/felt-dry.yaml", MODE.replace(", minutes: 2", ""), "4:10: `clean` gives no minutes. Add `minutes:` to the remedy. [cleaning-and-advice-take-time]"),
    "a record in another kind's folder": ("checks/felt-dry.yaml", MODE, "1:1: This is a failure mode, and the folder is that of another kind. Move the file to failure-modes/. [file]"),
    "a file ending of three letters": ("failure-modes/felt-dry.yml", MODE, "1:1: A record's file ends in '.yaml', not '.yml'. Rename it to 'felt-dry.yaml'. [file]"),
    "minutes on the part itself": ("assemblies/covers.yaml", "title: C\nparts:\n  plate:\n    title: P\n    minutes: 3\n", "5:5: 'minutes' is no key that can stand here. It belongs in 'parts.<id>.off' or 'parts.<id>.on'. [schema]"),
    "a stroke in kilograms": ("families/testa-1.yaml", None, "'needle_bar_stroke' is '31 kg', and 'Needle-bar stroke' is given as length. Write a number and one of mm,…[figure-in-its-measure]"),
    "a mechanism that is not there": ("families/testa-1.yaml", None, "'hook-drvie' is no assembly. Did you mean 'hook-drive'? [names-exist]"),
    "a feature misspelt": ("families/testa-1.yaml", None, "Nothing says in words what 'zigzg' means. Did you mean 'zigzag'? [feature-has-words]"),
}
CHANGED = {"a stroke in kilograms": ("32 mm", "31 kg"), "a mechanism that is not there": ("use: hook-drive", "use: hook-drvie"), "a feature misspelt": ("zigzag: false", "zigzg: false")}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_a_common_mistake_ends_in_its_line_the_fault_and_the_mend(mistake: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    place, text, said = MISTAKES[mistake]
    path = Path("content", place)
    path.write_text(text or path.read_text("utf-8").replace(*CHANGED[mistake]), "utf-8")
    lines = CliRunner().invoke(check, [str(path)]).output.splitlines()
    found = [line for line in lines if all(piece in line for piece in said.split("…"))]
    assert len(found) == 1, lines
    number = int(found[0].removeprefix(f"{path}:").partition(":")[0])
    assert 1 <= number <= len(path.read_text("utf-8").splitlines())


def test_the_twelfth_a_record_left_as_it_was_begun(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)
    path = CliRunner().invoke(new, ["tally", "my-shop-2026"]).output.strip()
    lines = CliRunner().invoke(check, [path]).output.splitlines()
    assert len(lines) == 4
    assert all(line.endswith("This is the example's value. Write your own, and take out !example. [file]") for line in lines[:-1])
