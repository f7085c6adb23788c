"""The examples in the planner's docstrings run as they stand."""

from __future__ import annotations

import doctest
from importlib import import_module
from pkgutil import iter_modules

import pytest

import generator.analysis.job as job

WITH_EXAMPLES = {"money", "plan", "precedence", "proof", "settings", "tray", "way_in", "way_out", "while_open"}


@pytest.mark.parametrize("name", sorted(m.name for m in iter_modules(job.__path__)))
def test_examples_run(name: str) -> None:
    result = doctest.testmod(import_module(f"{job.__name__}.{name}"))
    assert result.failed == 0
    assert (result.attempted > 0) == (name in WITH_EXAMPLES)
