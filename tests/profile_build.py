"""Where the time of a build goes, in one process: seconds of the processor, by stage and by function.

    python -m tests.profile_build

Run `mkdocs build` before, so that orders of checks are kept; a profile takes two to three times as long as a build.
"""

from __future__ import annotations

import cProfile
import pstats
import tempfile
import time
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator import workers

ROOT = Path(__file__).parent.parent
MOST = 40


def main() -> None:
    workers._can_share = lambda: False  # other processes are not seen from here
    profile = cProfile.Profile(time.process_time)
    with tempfile.TemporaryDirectory() as folder:
        config = load_config(str(ROOT / "mkdocs.yml"), site_dir=str(Path(folder, "site")), strict=True)
        config.plugins.on_startup(command="build", dirty=False)
        profile.runcall(build, config)
    stats = pstats.Stats(profile).stats  # type: ignore[attr-defined]
    whole = max(row[3] for row in stats.values())
    print(f"{whole:.1f} s in all, the profile's own among them.\n")
    _table("With all that it calls", {at: row[3] for at, row in stats.items() if "generator" in at[0]}, whole)
    _table("By itself", {at: row[2] for at, row in stats.items()}, whole)


def _table(title: str, seconds: dict[tuple[str, int, str], float], whole: float) -> None:
    print(f"{title:>22}")
    for (file, line, name), took in sorted(seconds.items(), key=lambda row: -row[1])[:MOST]:
        where = file.rpartition("generator/")[2] or Path(file).name
        print(f"{took:8.2f} s {took / whole:5.0%}  {name}  {where}:{line}")
    print()


if __name__ == "__main__":
    main()
