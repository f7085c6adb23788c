"""Carries into the package what a checkout keeps beside it; all else is in pyproject.toml."""

from pathlib import Path
from shutil import copytree, rmtree

from setuptools import setup
from setuptools.command.build_py import build_py

CARRIED = ("schema", "tests/records/negative")
"What the commands read: the schema, and the cases that `check --explain` shows."


class CarryingBuild(build_py):
    """Builds the package, then lays the carried folders into it; an editable install reads them in place."""

    def run(self) -> None:
        """Build, then carry."""
        super().run()
        if self.editable_mode:
            return
        inside = Path(self.build_lib, "generator", "carried")
        rmtree(inside, ignore_errors=True)
        for place in CARRIED:
            copytree(place, inside / place)


setup(cmdclass={"build_py": CarryingBuild})
