"""Every class that a page is given is read by a style, a script or a test, and every class of a style is given somewhere."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "generator"
WORD = r"hw-[a-z0-9-]*[a-z0-9]"
GIVEN = re.compile(rf"(?<![.\w-])({WORD})(-?(?:\{{|\$\{{))?(?![\w-])")
"A class, and whether a value is written behind it that makes several of it."
PUT_TOGETHER = {"hw-danger-line"}
"Classes of which a template writes the middle by a caution's level."
READ = re.compile(rf"\.({WORD})")


def text_of(folder: Path, *endings: str) -> str:
    return "\n".join(path.read_text("utf-8") for path in sorted(folder.rglob("*")) if path.suffix in endings)


def given() -> tuple[set[str], tuple[str, ...]]:
    """Classes in templates, scripts and drawings; and what several classes begin with."""
    found = GIVEN.findall(text_of(PACKAGE, ".html", ".js", ".py"))
    return {word for word, more in found if not more}, tuple(word for word, more in found if more)


def test_no_class_is_given_that_nothing_reads() -> None:
    read = set(READ.findall(text_of(PACKAGE, ".css", ".js") + text_of(ROOT / "tests", ".py")))
    classes, begins = given()
    assert len(classes) > 100 and begins
    assert sorted(classes - read) == []
    assert [word for word in begins if not any(name.startswith(word) for name in read)] == []


def test_no_style_is_for_a_class_that_nothing_has() -> None:
    styled, (classes, begins) = set(READ.findall(text_of(PACKAGE, ".css"))), given()
    assert sorted(name for name in styled - classes - PUT_TOGETHER if not name.startswith(begins)) == []
