"""Bad input of any kind, for every command: exit 1 and one clear line, never a traceback."""

from __future__ import annotations

import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.__main__ import main

ROOT = Path(__file__).parents[2]
SOUND = ROOT / "tests" / "records" / "sound"
BAD = {
    "nonsense": "No such command 'nonsense'",
    "chek": "There is no command 'chek'. Did you mean 'check'?",
    "check --content content/checks": "'content/checks' holds one kind of record: name the folder that holds it, 'content'",
    "--nonsense": "No such option",
    "check --nonsense": "No such option",
    "check --format xml": "'xml' is not one of 'text'",
    "check no-such.yaml": "There is no file or folder 'no-such.yaml'",
    "check .": "'.' is in no content folder",
    "check --content no-such": "There is no content folder 'no-such'",
    "check --explain no-such": "'no-such' is no rule",
    "rank": "Missing argument 'SYMPTOM'",
    "rank skipped-stitches": "Missing option '-f' / '--family'",
    "rank skipped-stitches -f": "Option '-f' requires an argument",
    "rank skipped-stiches -f testa-1": "Did you mean 'skipped-stitches'?",
    "rank skipped-stitches -f testa-2": "Did you mean 'testa-1'?",
    "rank skipped-stitches -f testa-1 --content no-such": "There is no content folder 'no-such'",
    "flow skipped-stitches -f testa-2": "Did you mean 'testa-1'?",
    "tree": "Missing argument 'SYMPTOM', or --from FILE",
    "tree skipped-stitches": "Missing option '-f' / '--family'",
    "tree skipped-stitches -f testa-1 --from tree.xml": "not both",
    "tree --from no-such.xml": "no-such.xml: No such file",
    "tree --from content": "content: Is a directory",
    "tree skipped-stitches -f testa-1 --as png": "'png' is not one of",
    "plan -f testa-1": "Nothing to plan.",
    "plan -f testa-1 --renew hook-gaer": "Did you mean 'hook-gear'?",
    "coverage -f testa-2": "Did you mean 'testa-1'?",
    "fastener ten": "'ten' is no thread",
    "fastener 10-32 --shaft '8 mm'": "--shaft and --flat belong together",
    "compare no-such": "git cannot give content at 'no-such'",
    "new part hook": "'part' is not one of",
    "new check Hook_Gear": "'Hook_Gear' is no id.",
    "new shop mine": "The shop has one record",
    "new check watch-hook": "is there already",
    "share book.tar": "does not end in .zip",
}
"Command line -> what its one line says."


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(SOUND, tmp_path / "content")
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("line", BAD)
def test_bad_input_ends_in_one_line_and_exit_1(line: str) -> None:
    told = CliRunner().invoke(main, shlex.split(line), prog_name="python -m generator")
    assert told.exit_code == 1, told.output
    assert BAD[line] in told.output
    assert len(told.output.splitlines()) == 1
    assert told.stdout == ""


def test_the_process_ends_so_too() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "generator", "rank", "--nonsense"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("No such option")
    assert done.stderr.endswith(" See `python -m generator rank --help`.\n")
    assert done.stderr.count("\n") == 1


def test_help_is_no_bad_input() -> None:
    told = CliRunner().invoke(main, ["rank", "--help"])
    assert told.exit_code == 0
    assert "--saw" in told.output


def test_records_with_errors_are_refused_with_each_error_at_its_line() -> None:
    tools = Path("content/tools.yaml")
    tools.write_text("driver: {titel: Screwdriver}\n", encoding="utf-8")
    said = CliRunner().invoke(main, ["rank", "skipped-stitches", "-f", "testa-1"])
    assert said.exit_code == 1
    first, *faults = said.output.splitlines()
    assert first == "The records have errors; `check` explains each."
    assert "content/tools.yaml:1:10: 'titel' is no key that can stand here. Did you mean 'title'? [schema]" in faults


def test_in_an_empty_book_no_name_is_known() -> None:
    shutil.rmtree("content")
    Path("content").mkdir()
    said = CliRunner().invoke(main, ["rank", "skipped-stitches", "-f", "testa-1"])
    assert (said.exit_code, said.output) == (1, "'testa-1' is no family. Known: none.\n")


def test_a_complaint_that_the_family_cannot_have_is_refused_with_those_that_it_can() -> None:
    family = Path("content/families/testa-1.yaml")
    family.write_text(family.read_text(encoding="utf-8").replace("[skipped-stitches, nest-below]", "[skipped-stitches]"), encoding="utf-8")
    said = CliRunner().invoke(main, ["flow", "nest-below", "-f", "testa-1"])
    assert (said.exit_code, said.output) == (1, "Testa 1-series cannot have 'Nest below'. It can have: skipped-stitches.\n")
