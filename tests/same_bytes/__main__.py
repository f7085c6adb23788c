"""Builds the book here, and again in another folder, time zone, language and order of sets; says which files differ.

    python -m tests.same_bytes --python /path/to/another/python

The second build may run by another Python that has this package. `--anew` keeps no order of checks from it.
"""

from __future__ import annotations

import argparse
import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from tests.same_bytes import ELSEWHERE

ROOT = Path(__file__).parent.parent.parent


def main() -> None:
    asked = argparse.ArgumentParser(prog="python -m tests.same_bytes")
    asked.add_argument("--python", default=sys.executable)
    asked.add_argument("--anew", action="store_true")
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        here, there = Path(folder, "here"), Path(folder, "another place") / "deeper"
        first = _built(here, sys.executable, {}, keeps=True)
        second = _built(there, given.python, ELSEWHERE, keeps=not given.anew)
    other = sorted(name for name in first.keys() | second.keys() if first.get(name) != second.get(name))
    print("\n".join([*other[:20], f"{len(other)} of {len(first)} files differ."]))
    raise SystemExit(bool(other))


def _built(project: Path, python: str, where: Mapping[str, str], keeps: bool) -> dict[str, str]:
    """The fingerprint of every file of a site built in a folder of its own."""
    for name in ("content", ".cache") if keeps else ("content",):
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, project / name)
    shutil.copy(ROOT / "mkdocs.yml", project)
    env = {**os.environ, "NO_MKDOCS_2_WARNING": "1", "PYTHONPATH": str(ROOT), **where}
    subprocess.run([python, "-m", "mkdocs", "build", "--strict", "--quiet"], cwd=project, env=env, check=True)
    files = (p for p in sorted((project / "site").rglob("*")) if p.is_file())
    return {str(p.relative_to(project / "site")): hashlib.sha256(p.read_bytes()).hexdigest() for p in files}


if __name__ == "__main__":
    main()
