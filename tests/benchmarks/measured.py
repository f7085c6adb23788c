"""What a command takes: time by the clock, time of the processor and memory, of all its processes together."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
_EVERY = 0.2
"Seconds between two looks at the memory."


@dataclass(frozen=True, slots=True)
class Spent:
    """What one run took."""

    wall: float
    "Seconds by the clock."
    processor: float
    "Seconds of the processor, of the process and all that it started and waited for."
    peak: float
    "The most memory at one moment, in MiB, of all processes; what they share counts once."


def measured(command: Sequence[str], folder: Path, quiet: bool = True, more: Mapping[str, str] | None = None) -> Spent:
    """Run a command of this Python (`-m ...`) in a folder. Raises CalledProcessError, with what it said, where it fails."""
    paths = {"PYTHONPATH": os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH", ""))))}
    env = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true", **paths, **(more or {})}
    env.pop("PYTHONDONTWRITEBYTECODE", None)  # a person's Python reads compiled modules
    said = subprocess.PIPE if quiet else None
    began = time.perf_counter()
    process = subprocess.Popen([sys.executable, *command], cwd=folder, env=env, stdout=said, stderr=said, text=True, start_new_session=True)
    watch = _Watch(process.pid)
    before = os.times()
    out, errors = process.communicate()
    wall, after = time.perf_counter() - began, os.times()
    watch.stop()
    if process.returncode:
        raise subprocess.CalledProcessError(process.returncode, command, out, errors)
    processor = after.children_user + after.children_system - before.children_user - before.children_system
    return Spent(wall, processor, watch.peak)


class _Watch:
    """Looks now and then at the memory of a session's processes; where there is no /proc it sees none."""

    def __init__(self, session: int) -> None:
        self.peak = 0.0
        self._session = session
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._look, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """No more looks."""
        self._over.set()
        self._thread.join()

    def _look(self) -> None:
        while not self._over.wait(_EVERY):
            self.peak = max(self.peak, sum(map(_proportional, self._processes())) / 1024)

    def _processes(self) -> list[Path]:
        found = []
        for stat in Path("/proc").glob("[0-9]*/stat"):
            try:
                fields = stat.read_text(encoding="ascii", errors="replace").rpartition(")")[2].split()
            except OSError:
                continue
            if fields[3] == str(self._session):
                found.append(stat.parent)
        return found


def _proportional(process: Path) -> int:
    """KiB of a process, its part of what several share."""
    try:
        lines = (process / "smaps_rollup").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in lines if line.startswith("Pss:")), 0)
