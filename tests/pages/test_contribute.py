"""The page that lists the keys of records lists all of them, from the schema that checks them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape

import pytest

from generator.bench import Bench
from generator.library import Library
from generator.pages.learn import contribute
from generator.pages.maker import Maker
from generator.records.kinds import KINDS
from generator.records.model import Records
from generator.records.schema import schema


@pytest.fixture(scope="module")
def html() -> str:
    (page,) = contribute.pages(Maker(Bench(Library(Records()))))
    return page.html


def properties(part: object) -> Iterator[tuple[str, dict]]:
    """Every key with its schema, wherever a schema file has it."""
    if isinstance(part, dict):
        if isinstance(part.get("properties"), dict):
            yield from part["properties"].items()
        for key, below in part.items():
            if key != "examples":
                yield from properties(below)


@pytest.mark.parametrize("name", sorted({kind.schema for kind in KINDS.values()}))
def test_every_key_of_a_kind_stands_under_its_heading_with_what_it_means(html: str, name: str) -> None:
    section = html.partition(f'<h2 id="{name}">')[2].partition("<h2")[0]
    rows = re.findall(r"<tr><th scope=\"row\"><code>([^<]+)</code>.*?</th><td>(.*?)</td>", section)
    shown = {(re.split(r"[.\]]", unescape(key))[-1], unescape(said)) for key, said in rows}
    keys = {(key, part["description"]) for key, part in properties(schema(name))}
    assert keys - shown == set()
    assert keys


@pytest.mark.parametrize("key", ["parts.&lt;id&gt;.off.minutes", "tree.any[].see", "assemblies[].without", "figures.&lt;id&gt;.value"])
def test_a_nested_key_stands_there_with_its_path(html: str, key: str) -> None:
    assert html.count(f"<code>{key}</code>") >= 1


def test_what_must_be_there_is_marked(html: str) -> None:
    assert "<code>parts.&lt;id&gt;.title</code> <small>needed</small>" in html
    assert "<code>parts.&lt;id&gt;.what</code></th>" in html
