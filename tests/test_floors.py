"""The floors of the house: a lower one never imports a higher one, and analysis computes without reading or writing."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "generator"
FLOORS: tuple[tuple[str, ...], ...] = (
    ("graph", "carried", "typed_json", "workers", "whole_files", "swapped_in", "lean", "watched", "prints", "uncollected"),
    ("standards", "kept", "edition", "published"),
    ("records", "analysis"),
    ("content_rules", "family_view", "own_words", "made_from"),
    ("cross_references", "checked"),
    ("store",),
    ("family_build",),
    ("library",),
    ("backlinks", "bench", "diagrams"),
    ("wording",),
    ("pages",),
    ("standing",),
    ("site_build", "commands", "offline", "rests_on"),
    ("frame_of_page",),
    ("frame",),
    ("mkdocs_site",),
    ("preview",),
    ("plugin", "__main__"),
)
"From the ground up; rooms of one floor do not know each other."
KNOWS_MKDOCS = {"plugin", "preview", "mkdocs_site", "frame", "frame_of_page", "rests_on"}
READS_OR_WRITES = {"os", "io", "pathlib", "shutil", "subprocess", "tempfile", "socket", "urllib", "yaml", "click", "mkdocs", "jinja2"}
RANK = {room: number for number, floor in enumerate(FLOORS) for room in floor}


def _modules() -> list[Path]:
    return sorted(p for p in PACKAGE.rglob("*.py") if p.parent != PACKAGE or p.name != "__init__.py")


def _room(dotted: str) -> str:
    return dotted.split(".")[1]


def _dotted(path: Path) -> str:
    return ".".join(("generator", *path.relative_to(PACKAGE).with_suffix("").parts))


def _imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module == "generator":
            yield from (f"generator.{name.name}" for name in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


@pytest.mark.parametrize("path", _modules(), ids=_dotted)
def test_a_module_imports_only_from_floors_below_it(path: Path) -> None:
    here = _room(_dotted(path))
    ours = {_room(name) for name in _imports(path) if name.startswith("generator.")} - {here}
    assert {room for room in ours if RANK[room] >= RANK[here]} == set()


@pytest.mark.parametrize("path", sorted((PACKAGE / "analysis").rglob("*.py")), ids=_dotted)
def test_analysis_knows_tables_and_itself_and_neither_reads_nor_writes(path: Path) -> None:
    names = set(_imports(path))
    assert {_room(n) for n in names if n.startswith("generator.")} <= {"analysis", "standards", "graph"}
    assert {n.split(".")[0] for n in names} & READS_OR_WRITES == set()
    calls = {node.func.id for node in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    assert calls & {"open", "print", "input"} == set()


def test_mkdocs_is_known_to_the_plugin_alone() -> None:
    knowing = {_room(_dotted(p)) for p in _modules() if any(n.split(".")[0] == "mkdocs" for n in _imports(p))}
    assert knowing == KNOWS_MKDOCS


def test_every_module_of_the_package_has_its_floor() -> None:
    assert {_room(_dotted(p)) for p in _modules()} == RANK.keys()


def test_no_room_of_pages_borrows_what_another_keeps_to_itself() -> None:
    """What begins with a stroke is the module's own."""
    for path in sorted((PACKAGE / "pages").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("generator."):
                assert not [n.name for n in node.names if n.name.startswith("_")], path
