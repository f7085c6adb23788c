"""`python -m tests.mutants FILE...`: which small faults in these modules no test of theirs finds.

A fault is found where the tests fail, or run ten times as long on the processor as they do without it.
"""

from __future__ import annotations

import ast
import contextlib
import importlib.abc
import importlib.machinery
import os
import random
import resource
import sys
from pathlib import Path

import click
import hypothesis
import pytest

from tests.mutants.equivalent import named, sifted
from tests.mutants.faults import Fault, faults

ROOT = Path(__file__).parents[2]
MOST = 10
"Times the seconds of the processor that the tests take without a fault."


class _Instead(importlib.abc.MetaPathFinder, importlib.abc.InspectLoader):
    """Gives one module from the source with the fault in it."""

    def __init__(self, name: str, path: Path, source: str) -> None:
        self._name, self._path, self._source = name, path, source

    def find_spec(self, name: str, path: object = None, target: object = None) -> importlib.machinery.ModuleSpec | None:
        """Only of the one module."""
        if name != self._name:
            return None
        spec = importlib.machinery.ModuleSpec(name, self, origin=str(self._path))
        spec.has_location = True
        return spec

    def get_source(self, name: str) -> str:
        """With the fault."""
        return self._source


def tests_of(module: Path) -> list[str]:
    """The module's own tests or else those of its room, a folder or a file, if it has any; and the examples in it.

    >>> tests_of(Path("generator/analysis/reckon.py"))[0]
    'tests/analysis/test_reckon.py'
    """
    below = module.relative_to("generator")
    own_file, room = Path("tests", below.parent, f"test_{below.stem}.py"), Path("tests", below.parent)
    places = [own_file, room, room.with_name(f"test_{room.name}.py")]
    dotted = ".".join(module.with_suffix("").parts)
    own = [str(place) for place in places if (ROOT / place).exists()][:1]
    return [*own, f"tests/test_examples.py::test_examples_run[{dotted}]"]


def _passes(module: Path, source: str, seconds: int) -> tuple[bool, float]:
    """Whether the tests pass with this source, in a process of its own; and its seconds of the processor."""
    child = os.fork()
    if child == 0:
        with contextlib.suppress(ValueError):
            resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
        sys.meta_path.insert(0, _Instead(".".join(module.with_suffix("").parts), ROOT / module, source))
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, 1)
        os.dup2(nothing, 2)
        os._exit(pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", *tests_of(module)]))
    _, status, used = os.wait4(child, 0)
    return status == 0, used.ru_utime + used.ru_stime


def _chosen(every: list[Fault], sample: int) -> list[Fault]:
    """All of them, or as many as asked, the same ones each time."""
    return every if len(every) <= sample else sorted(random.Random(0).sample(every, sample), key=lambda f: f.line)


def _told(module: Path, every: list[Fault], chosen: list[Fault], missed: list[Fault]) -> tuple[int, int]:
    """Says what was missed and what is named wrongly; how many were found, of how many that can be."""
    same, stale = sifted(every, named(module))
    for entry in stale:
        click.echo(f"{module}: equivalent.yaml names a fault that is not there: {entry['fault']} in `{entry['line']}`.")
    for fault in chosen:
        if (fault in missed) != (fault in same):
            says = "equivalent.yaml says that nothing finds it, and a test does" if fault in same else "and no test fails"
            click.echo(f"{module}:{fault.line}: {fault.says} ({fault.nth}) in `{fault.text}`, {says}.")
    apart = [f for f in missed if f in same]
    found, tried = len(chosen) - len(missed), len(chosen) - len(apart)
    click.echo(f"{module}: {found} of {tried} found" + (f", {len(apart)} more equivalent." if apart else "."))
    return found, tried


@click.command()
@click.argument("modules", nargs=-1, required=True, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--sample", default=40, show_default=True, help="Faults tried in a module at the most.")
def main(modules: tuple[Path, ...], sample: int) -> None:
    """Names every fault that the tests do not find, and the share that they do.

    Faults that equivalent.yaml names are counted apart.
    """
    counts = []
    for module in modules:
        source = module.read_text(encoding="utf-8")
        sound, seconds = _passes(module, ast.unparse(ast.parse(source)), 3600)
        if not sound:
            raise click.ClickException(f"The tests of {module} fail without any fault: {' '.join(tests_of(module))}")
        every = list(faults(source))
        chosen = _chosen(every, sample)
        missed = [f for f in chosen if _passes(module, f.source, round(MOST * seconds) + 1)[0]]
        counts.append(_told(module, every, chosen, missed))
    found, tried = map(sum, zip(*counts))
    click.echo(f"Found: {found} of {tried}, {found / max(tried, 1):.0%}.")


if __name__ == "__main__":
    assert hypothesis and pytest  # loaded once, before any process of a fault parts from this one
    main()
