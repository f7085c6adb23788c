"""Faults that no input can tell from the module as it is: named in equivalent.yaml, each with its reason."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

import yaml

from tests.mutants.faults import Fault

FILE = Path(__file__).with_name("equivalent.yaml")


def every_named() -> dict[str, list[dict[str, str | int]]]:
    """Of every module, by its path from the top."""
    return yaml.safe_load(FILE.read_text(encoding="utf-8")) or {}


def named(module: Path) -> list[dict[str, str | int]]:
    """Of one module."""
    return every_named().get(module.as_posix(), [])


def sifted(every: Iterable[Fault], entries: Iterable[Mapping[str, str | int]]) -> tuple[list[Fault], list[Mapping[str, str | int]]]:
    """The faults that are named, and the names of faults that are not there any more."""
    by_name = {(f.text, f.says, f.nth): f for f in every}
    names = [((e["line"], e["fault"], e.get("nth", 1)), e) for e in entries]
    return [by_name[n] for n, _ in names if n in by_name], [e for n, e in names if n not in by_name]
