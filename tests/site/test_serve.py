"""The live preview follows an edit of a record, and comes back after a bad one."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

ROOT = Path(__file__).parent.parent.parent
PATIENCE = 90
"Seconds; a preview takes two or three where nothing else runs."


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[tuple[Path, str]]:
    """A project with sound records, served; its folder and address."""
    shutil.copytree(ROOT / "tests" / "records" / "sound", tmp_path / "content")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    built = tmp_path / "built"  # a preview that is ended leaves its site where it was
    built.mkdir()
    address = f"127.0.0.1:{free_port()}"
    served = subprocess.Popen(
        [sys.executable, "-m", "mkdocs", "serve", "--dev-addr", address],
        cwd=tmp_path,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1", "TMPDIR": str(built)},
    )
    yield tmp_path, f"http://{address}"
    served.terminate()
    served.wait(timeout=20)


def eventually(holds: Callable[[], bool]) -> bool:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            if holds():
                return True
        except OSError:
            pass
        time.sleep(0.3)
    return False


def text(address: str) -> str:
    with urlopen(address, timeout=10) as answer:
        return answer.read().decode()


def test_an_edited_record_shows_also_after_a_broken_one(preview):
    folder, address = preview
    page = f"{address}/symptoms/skipped-stitches.html"
    assert eventually(lambda: "<h1" in text(page))
    record = folder / "content" / "symptoms" / "skipped-stitches.yaml"
    whole = record.read_text(encoding="utf-8")
    record.write_text("titel: [broken\n", encoding="utf-8")
    time.sleep(2)
    record.write_text(whole + "\nsummary: A sentence nobody wrote before.\n", encoding="utf-8")
    assert eventually(lambda: "A sentence nobody wrote before." in text(page))
