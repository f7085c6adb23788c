"""The table at the end, and the processes and libraries that several benchmarks use."""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from tests.benchmarks.figures import FIGURES, Figures
from tests.benchmarks.made_sites import MadeSite

Sites = Callable[[int], MadeSite]
"The site of a made library of so many families."


@pytest.fixture(scope="session")
def figures() -> Figures:
    """Where a benchmark notes what it measured."""
    return FIGURES


@pytest.fixture(scope="session")
def large() -> bool:
    """Whether the long ones were asked for: `make benchmarks LARGE=1`."""
    return bool(os.environ.get("LARGE"))


@pytest.fixture(scope="session")
def made_sites(tmp_path_factory: pytest.TempPathFactory, large: bool) -> Sites:
    """Made sites, each built once."""
    known: dict[int, MadeSite] = {}

    def made(families: int) -> MadeSite:
        if families not in known:
            known[families] = MadeSite(tmp_path_factory.mktemp(f"made-{families}"), families, quiet=not large)
        return known[families]

    return made


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One table of all that was measured."""
    if FIGURES.all:
        terminalreporter.section("figures")
        for line in FIGURES.table():
            terminalreporter.line(line)
