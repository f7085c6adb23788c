"""The page that lists the keys of records lists all of them, from the schema that checks them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import Field, fields, is_dataclass
from html import unescape
from typing import get_args, get_type_hints

import pytest

from generator.bench import Bench
from generator.library import Library
from generator.pages.learn import contribute
from generator.pages.maker import Maker
from generator.records.kinds import KINDS
from generator.records.model import Records
from generator.records.schema import follow, schema
from generator.records.schema_keys import keys_of


@pytest.fixture(scope="module")
def html() -> str:
    (page,) = contribute.piece(Maker(Bench(Library(Records())))).pages()
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
    rows = re.findall(r"<tr[^>]*><th scope=\"row\"><code>([^<]+)</code>.*?</th><td>(.*?)</td>", section)
    shown = {(re.split(r"[.\]]", unescape(key))[-1], unescape(said)) for key, said in rows}
    keys = {(key, part["description"]) for key, part in properties(schema(name))}
    assert keys - shown == set()
    assert keys


@pytest.mark.parametrize("key", ["parts.&lt;id&gt;.off.minutes", "tree.any[].see", "assemblies[].without", "figures.&lt;id&gt;.value"])
def test_a_nested_key_stands_there_with_its_path(html: str, key: str) -> None:
    assert html.count(f"<code>{key}</code>") >= 1


@pytest.mark.parametrize(
    ("anchor", "takes"),
    [
        ("assembly.parts.off.slackens", "a list, each the id of a joint"),
        ("check.power", "one word of these: <code>off</code>, <code>on</code>, <code>handwheel-only</code>"),
        ("check.trust", "a number, above 0.5, up to 0.999. Left out: <code>0.95</code>"),
        ("failure-mode.unseen_by", "a mapping from the id of a check to one line of words"),
        ("symptom.tree.at_least", "a whole number, from 1"),
        ("family.assemblies.without", "a list, each an id"),
    ],
)
def test_a_key_says_what_it_takes_and_what_it_is_when_left_out(html: str, anchor: str, takes: str) -> None:
    row = html.partition(f'<tr id="{anchor}">')[2].partition("</tr>")[0]
    assert f'<td data-name="Takes">{takes}</td>' in row


def field_of(name: str, path: str) -> Field[object]:
    """The field of the record's class that a key fills."""
    shape: object = next(kind.shape for kind in KINDS.values() if kind.schema == name)
    *ways, last = [step.removesuffix("[]") for step in path.split(".") if step != "<id>"]
    for way in ways:
        hint = get_type_hints(shape)[way]
        shape = next(h for h in (hint, *get_args(hint)) if is_dataclass(h))
    return next(field for field in fields(shape) if field.name == last)


def test_a_value_left_out_is_what_the_schema_says() -> None:
    """The classes fill it in, except where they hold None and whoever reads the record does (one screw, right-hand)."""
    left_to_the_reader = {("fasteners", "count"), ("fasteners", "hand")}
    plain = [(n, k) for n in {kind.schema for kind in KINDS.values()} for k in keys_of(n) if k.path.split(".")[0] not in ("tree", "assemblies")]
    for name, key in plain:
        whole = follow(name, key.shape)
        if (name, key.path) in left_to_the_reader or whole.get("const") is True:
            continue
        held = field_of(name, key.path).default
        said = held if isinstance(held, (bool, int, float, str)) else None
        assert whole.get("default") == said, (name, key.path)


def test_features_figures_positions_and_roles_stand_there_with_their_meaning(published: Bench) -> None:
    (page,) = contribute.piece(Maker(published)).pages()
    records = published.library.records
    for word in (*records.features, *records.figures, *records.positions):
        assert f'<th scope="row"><code>{word}</code></th>' in page.html
    assert records.figures["connecting_rod"].means in page.html
    role = schema("assembly")["properties"]["role"]
    assert all(f" {word}: " in role["description"] for word in role["enum"])


def test_what_must_be_there_is_marked(html: str) -> None:
    assert "<code>parts.&lt;id&gt;.title</code> <small>needed</small>" in html
    assert "<code>parts.&lt;id&gt;.what</code></th>" in html
