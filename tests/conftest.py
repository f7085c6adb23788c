"""What tests of several floors share."""

from __future__ import annotations

import gc
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from generator.bench import Bench
from generator.library import Library
from generator.store import load_kept

ROOT = Path(__file__).parent.parent

settings.register_profile("patient", deadline=None)
settings.load_profile("patient")  # a busy machine is no fault of the code
gc.set_threshold(100_000, 20, 100)  # a process holds the whole book; to look through it for what is unused takes long
_NAMES = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome", "chrome")
"The first has no window to draw, and does the same in little more than half the time of the processor."
_QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--font-render-hinting=none",  # without a window letters would be as wide as whole pixels of a screen
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with a file that builds the site: one process builds it while the others have other work to do."""
    items.sort(key=lambda item: item.path.name != "test_site.py")


def chromium_path() -> str | None:
    """Chromium from the PATH, else by apt as root; None: the test library's own browser."""
    found = next(filter(None, map(shutil.which, _NAMES)), None)
    if found or not (hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get")):
        return found
    subprocess.run(["apt-get", "update"], capture_output=True, check=False)
    for package in _NAMES[:2]:  # older systems have no package of the first
        done = subprocess.run(["apt-get", "install", "-y", "--no-install-recommends", package], capture_output=True, check=False)
        if done.returncode == 0:
            break
    return next(filter(None, map(shutil.which, _NAMES)), None)


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """A folder for all processes of this run."""
    base = tmp_path_factory.getbasetemp()
    return base if worker_id == "master" else base.parent


@pytest.fixture(scope="session")
def published(shared: Path) -> Bench:
    """The bench of the real content: read and checked once for all processes, and what it works out kept for all."""
    with FileLock(shared / "records.lock"):
        records, errors = load_kept([ROOT / "content"], shared)
    assert not errors, errors
    return Bench(Library(records), ROOT / ".cache" / "handwheel")


@pytest.fixture(scope="session")
def open_browser(shared: Path) -> Iterator[Callable[..., Browser]]:
    """Opens a real Chromium, its environment added to. Fails, with what to do, where none can be had."""
    with FileLock(shared / "chromium.lock"):
        path = chromium_path()
        if path is None:
            subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], capture_output=True, check=False)
    with sync_playwright() as library:

        def opened(**more: str) -> Browser:
            try:
                return library.chromium.launch(executable_path=path, args=list(_QUIET), env={**os.environ, **more})
            except Exception as error:  # the library raises its own kinds; the mend is the same for all
                pytest.fail(f"No Chromium to test with: install the chromium package. {error}")

        yield opened


@pytest.fixture(scope="session")
def browser(open_browser: Callable[..., Browser]) -> Iterator[Browser]:
    """A browser as the machine gives it."""
    opened = open_browser()
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def site(shared: Path) -> Path:
    """The site of the real content, built strictly, once for all tests and all their processes."""
    return _built(ROOT, shared / "built" / "site")


@pytest.fixture(scope="session")
def sound_site(shared: Path) -> Path:
    """The site of the small sound records, built strictly, once. To be read, not written to."""
    project = shared / "sound"
    with FileLock(f"{project}.lock"):
        if not project.is_dir():
            shutil.copytree(ROOT / "tests" / "records" / "sound", project / "content")
            shutil.copy(ROOT / "mkdocs.yml", project)
    return _built(project, project / "site")


def _built(project: Path, folder: Path) -> Path:
    folder.parent.mkdir(exist_ok=True)
    with FileLock(f"{folder}.lock"):
        if not (folder / "sw.js").is_file():
            _build(project, folder)
    return folder


def _build(project: Path, folder: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", str(folder)],
        cwd=project,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
    )
    if done.returncode:
        pytest.fail(f"The site does not build:\n{done.stdout}{done.stderr}")
