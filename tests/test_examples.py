"""The examples in docstrings run as they stand, in every module of the package and of what tests are made with."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

import pytest

import generator

MODULES = sorted(module.name for module in walk_packages(generator.__path__, "generator."))
ROOT = Path(__file__).parents[1]
SUPPORT = [p for p in sorted(ROOT.glob("tests/**/*.py")) if p.name[:5] not in ("test_", "__mai") and "\n    >>> " in p.read_text(encoding="utf-8")]
STAGES_OF_A_PLAN = ("money", "plan", "precedence", "settings", "tray", "way_in", "way_out", "while_open")


@pytest.mark.parametrize("name", [*MODULES, *(".".join(p.relative_to(ROOT).with_suffix("").parts) for p in SUPPORT)])
def test_examples_run(name: str) -> None:
    """All of them: one that stands where no docstring is would never be run."""
    module = import_module(name)
    lines = Path(module.__file__).read_text(encoding="utf-8").splitlines()
    result = doctest.testmod(module)
    assert result.failed == 0
    assert result.attempted == sum(line.lstrip().startswith(">>> ") for line in lines)


def test_every_module_is_looked_through() -> None:
    """A folder that is no package would hide its modules, and with them their examples."""
    package = Path(generator.__file__).parent
    files = {p.relative_to(package.parent).with_suffix("") for p in package.rglob("*.py")}
    assert {".".join(p.parts).removesuffix(".__init__") for p in files} == {"generator", *MODULES}


@pytest.mark.parametrize("name", STAGES_OF_A_PLAN)
def test_each_stage_of_a_plan_has_an_example(name: str) -> None:
    assert ">>> " in Path(generator.__path__[0], "analysis", "job", f"{name}.py").read_text(encoding="utf-8")
