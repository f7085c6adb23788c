"""A plain install, not editable, from a wheel: the commands answer without the checkout."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCES = ("generator", "schema", "tests/records/negative", "pyproject.toml", "setup.py", "MANIFEST.in", "README.md", "LICENSE")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel unpacked, as an installer does, and content of its own."""
    folder = tmp_path_factory.mktemp("shop")
    source = folder / "source"
    for name in SOURCES:
        (copy := source / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copytree(ROOT / name, copy) if (ROOT / name).is_dir() else shutil.copy(ROOT / name, copy)
    building = "from setuptools.build_meta import build_wheel; print(build_wheel('..'))"
    made = subprocess.run([sys.executable, "-c", building], cwd=source, capture_output=True, text=True, check=True)
    zipfile.ZipFile(folder / made.stdout.split()[-1]).extractall(folder / "installed")
    shutil.rmtree(source)
    shutil.copytree(ROOT / "content", folder / "book")
    return folder


def asked(shop: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """What the installed package answers in the shop's folder."""
    found = {**os.environ, "PYTHONPATH": str(shop / "installed"), "NO_MKDOCS_2_WARNING": "1"}
    return subprocess.run([sys.executable, "-m", *words], check=False, cwd=shop, env=found, capture_output=True, text=True)


@pytest.mark.parametrize(
    "line",
    (
        "check --content book",
        "rank skipped-stitches -f tessaly-40 --content book",
        "new family my-family --content book",
    ),
)
def test_a_command_answers_where_there_is_no_checkout(shop: Path, line: str) -> None:
    told = asked(shop, "generator", *line.split())
    assert told.returncode == 0, told.stdout + told.stderr
    assert told.stdout


def test_a_site_is_built_of_content_that_is_not_this_repositorys_by_four_lines(shop: Path) -> None:
    shutil.copytree(ROOT / "tests" / "records" / "sound", shop / "own")
    (shop / "mkdocs.yml").write_text("site_name: Our book\ndocs_dir: own\nplugins:\n  - handwheel\n", encoding="utf-8")
    told = asked(shop, "mkdocs", "build", "--strict", "--quiet")
    assert told.returncode == 0, told.stdout + told.stderr
    home = (shop / "site" / "index.html").read_text(encoding="utf-8")
    assert "What is wrong with it?" in home
    assert "Our book" in home
    assert "assets/handwheel/css/book.css" in home
    assert not list((shop / "site").rglob("*.yaml"))


def test_the_script_on_the_path_answers_as_the_module_does(shop: Path) -> None:
    """An installer writes a script that calls what the entry point names."""
    calls = "import sys; from importlib.metadata import distribution; sys.argv[0] = 'handwheel'; " \
        "(entry,) = [e for e in distribution('handwheel').entry_points if e.group == 'console_scripts']; entry.load()()"
    found = {**os.environ, "PYTHONPATH": str(shop / "installed")}
    line = ["fastener", "10-32"]
    by_script = subprocess.run([sys.executable, "-c", calls, *line], cwd=shop, env=found, capture_output=True, text=True, check=True)
    assert by_script.stdout == asked(shop, "generator", *line).stdout


def test_the_cases_of_a_rule_are_installed_too(shop: Path) -> None:
    here = subprocess.run(
        [sys.executable, "-m", "generator", "check", "--explain", "names-exist"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert asked(shop, "generator", "check", "--explain", "names-exist").stdout == here.stdout


def test_what_is_installed_is_what_answers(shop: Path) -> None:
    where = "import generator.carried as c; print(c.carried('schema').resolve())"
    found = {**os.environ, "PYTHONPATH": str(shop / "installed")}
    told = subprocess.run([sys.executable, "-c", where], cwd=shop, env=found, capture_output=True, text=True, check=True)
    assert Path(told.stdout.strip()) == (shop / "installed/generator/carried/schema").resolve()
