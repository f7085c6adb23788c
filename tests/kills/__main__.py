"""Kills builds of a small book at random moments: what was published must stand, and the next build succeed.

    python -m tests.kills --times 200 --seed 1
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
QUIET = {"NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT)}


def main() -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.kills")
    asked.add_argument("--times", type=int, default=200)
    asked.add_argument("--seed", type=int, default=1)
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        _kill(Path(folder), given.times, random.Random(given.seed))


def _kill(project: Path, times: int, chance: random.Random) -> None:
    shutil.copytree(ROOT / "tests" / "records" / "sound", project / "content")
    shutil.copy(ROOT / "mkdocs.yml", project)
    began = time.monotonic()
    if _begin(project).wait():
        raise SystemExit("The first build failed.")
    long, whole = time.monotonic() - began, _state(project / "site")
    killed = 0
    for _ in range(times):
        builds = [_begin(project) for _ in range(chance.choice((1, 1, 2)))]  # now and then two at once
        time.sleep(chance.uniform(0, long * 1.1 * len(builds)))
        for build in builds:
            killed += build.poll() is None
            _end(build)
        if _state(project / "site") != whole:
            raise SystemExit(f"After {killed} kills the published site is another.")
    if _begin(project).wait() or _state(project / "site") != whole:
        raise SystemExit("The build after the last kill failed.")
    left = [p.name for p in project.iterdir() if p.name.endswith(".part")]
    print(f"{killed} builds killed in {times} rounds; {len(whole)} files stood whole after each; left over at the end: {left or 'nothing'}.")


def _begin(project: Path) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    return subprocess.Popen(command, cwd=project, env={**os.environ, **QUIET}, start_new_session=True)


def _end(build: subprocess.Popen[bytes]) -> None:
    """The build and what it started."""
    if build.poll() is None:
        os.killpg(build.pid, signal.SIGKILL)
    build.wait()


def _state(site: Path) -> dict[str, bytes]:
    return {str(p.relative_to(site)): p.read_bytes() for p in sorted(site.rglob("*")) if p.is_file()}


if __name__ == "__main__":
    main()
