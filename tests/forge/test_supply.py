"""What the project is built from: the lock, and the bill of materials."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import distribution, packages_distributions

from packaging.requirements import Requirement

from tests.conftest import ROOT
from tests.tools.bill import bill, name

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def _plain(package: str) -> str:
    return re.sub(r"[-_.]+", "-", package).lower()


def test_the_lock_holds_all_that_we_ask_for_within_its_range_and_each_file_to_its_fingerprint() -> None:
    blocks = re.split(r"\n(?=[a-z])", (ROOT / "requirements.lock").read_text(encoding="utf-8"))
    locked: dict[str, set[str]] = {}
    for block in blocks[1:]:
        package, version = re.match(r"([a-z0-9.-]+)==([^ ;\\]+)", block).groups()
        assert "--hash=sha256:" in block, package
        locked.setdefault(package, set()).add(version)
    for wanted in map(Requirement, (*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["test"])):
        versions = locked[_plain(wanted.name)]
        assert any(wanted.specifier.contains(version) for version in versions), f"{wanted}: {versions}"


def test_whatever_the_generator_imports_comes_with_it() -> None:
    """What only tests bring along is missing where somebody builds a site."""
    comes = {_plain(part["name"]) for part in bill()["components"]}
    brought = packages_distributions()
    modules = {module.partition(".")[0] for path in (ROOT / "generator").rglob("*.py") for module in _imported(path.read_text(encoding="utf-8"))}
    foreign = modules - sys.stdlib_module_names - {"generator"}
    assert foreign >= {"click", "mkdocs", "yaml"}
    assert [module for module in sorted(foreign) if not comes & {_plain(package) for package in brought[module]}] == []


def _imported(code: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(code)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def test_the_bill_names_everything_that_we_need_each_with_version_and_licence() -> None:
    """The keys are those of the CycloneDX 1.6 specification, from memory."""
    told = bill()
    assert (told["bomFormat"], told["specVersion"]) == ("CycloneDX", "1.6")
    by_ref = {part["bom-ref"]: part for part in told["components"]}
    assert len(by_ref) == len(told["components"])
    for wanted in map(Requirement, PROJECT["dependencies"]):
        of = distribution(wanted.name)
        part = by_ref[f"pkg:pypi/{name(of)}@{of.version}"]
        assert part["version"] == of.version and part["licenses"], wanted
    for row in told["dependencies"][1:]:
        assert row["ref"] in by_ref and set(row["dependsOn"]) <= by_ref.keys()
