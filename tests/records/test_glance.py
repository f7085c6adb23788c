"""Files seen at a glance to be sound: never one that the careful reading or a published validator has something against."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest

from generator.records.document import parse
from generator.records.folder import RecordFile, scan
from generator.records.gates import bad_gates
from generator.records.glance import at_a_glance
from generator.records.kinds import KINDS
from generator.records.node import plain
from generator.records.plain_fit import plainly_fits
from generator.records.schema import schema, validator
from generator.records.schema_keys import body

HERE = Path(__file__).parent
CONTENT = HERE.parents[1] / "content"
FILES = {folder: scan(folder).files for folder in (CONTENT, HERE / "sound")}
SOMETHING = (None, True, False, 0, 1, -3, 2.0, 0.5, 1e9, "", "x", "No Id", "an-id", "5 mm", "7 kg", "hex", [], ["a", "a"], [1], {}, {"a": 1}, {"id": "x"})
"Values of every type, good in some places and bad in most."
STROKES = ("", ":", ": ", "- ", "\n", "\n  ", "\t", "#", "'", '"', "&a ", "*a", "!x ", "[", "}", "? ", "---\n", "\u200b", "1e999", "~", "0o7", ".inf")


def data_of(file: RecordFile) -> Any:
    node = parse(file.path.read_bytes(), file.path).node
    assert node
    return plain(node)


@pytest.mark.parametrize("folder", FILES, ids=lambda folder: folder.name)
def test_every_sound_file_is_seen_to_be_so_with_the_same_data(folder: Path) -> None:
    assert FILES[folder]
    for file in FILES[folder]:
        seen = at_a_glance(file.kind, file.path, file.path.read_bytes())
        assert seen, file.path
        assert repr(seen.data) == repr(data_of(file))


@pytest.mark.parametrize(
    "text",
    [
        *("", "# nothing", "a", "[a", "&x title: a", "title: &x a", "title: *x", "title: !x a", "title: ! a", "title: !!str a"),
        *("title: a\ntitle: b", "[a]: b", "? {a: b}\n: c", "--- {title: a}\n--- {title: b}", "title: a\n\tb: c"),
        *("title: 1e999", "title: .inf", "title: \x07", f"title: {'[' * 40}{']' * 40}", f"title: [{'a,' * 60_000}]"),
        "<<<<<<< ours\ntitle: a\n=======\n>>>>>>> theirs",
    ],
)
def test_what_is_not_plain_is_left_to_the_careful_reading(text: str) -> None:
    assert at_a_glance(KINDS["check"], Path("x.yaml"), text.encode()) is None


@pytest.mark.parametrize(
    ("was", "now"),
    [
        *(("title: Watch", f"title: {mark} Watch") for mark in ("&x", "!!str", "!", "!x")),
        *(("title: Watch", f"{mark} title: Watch") for mark in ("!!str", "!")),
        *(("[plate]", f"{mark} [plate]") for mark in ("&x", "!!seq", "!", "!x")),
        *(("  - {says: It stands", f"  - {mark} {{says: It stands") for mark in ("&x", "!!map", "!", "!x")),
    ],
)
def test_an_anchor_or_a_tag_in_a_sound_record_is_left_to_it_too(was: str, now: str) -> None:
    path = HERE / "sound" / "checks" / "watch-hook.yaml"
    text = path.read_text("utf-8")
    assert at_a_glance(KINDS["check"], path, text.encode()) and text.count(was) == 1
    assert at_a_glance(KINDS["check"], path, text.replace(was, now).encode()) is None


@pytest.mark.parametrize(("gates", "seen"), [(12, True), (13, False)])
def test_a_tree_of_many_levels_is_left_to_it_too(gates: int, seen: bool) -> None:
    """A gate is a mapping with a list in it: 12 of them in the record are 25 levels, and no more are read at a glance."""
    tree = "gear-cracked"
    for number in range(gates):
        tree = f"{{id: g-{number}, title: G, any: [a-{number}, {tree}]}}"
    text = f"title: T\nsummary: S\nsaid_as: [it skips]\ntree: {tree}\n"
    assert (at_a_glance(KINDS["symptom"], Path("x.yaml"), text.encode()) is not None) == seen


@pytest.mark.parametrize("raw", [b"\xff\xfea", b"title: \xff", b"title: " + b"a" * 2**20])
def test_bytes_that_are_no_good_are_left_to_it_too(raw: bytes) -> None:
    assert at_a_glance(KINDS["check"], Path("x.yaml"), raw) is None


def test_spoilt_text_is_read_as_the_careful_reading_has_it_or_left_to_it() -> None:
    chance, files = Random(1), FILES[HERE / "sound"]
    told = []
    for _ in range(1500):
        file = chance.choice(files)
        text = file.path.read_text("utf-8")
        at = chance.randrange(len(text))
        raw = (text[:at] + chance.choice(STROKES) + text[at + chance.randrange(3) :]).encode()
        seen, reading = at_a_glance(file.kind, file.path, raw), parse(raw, file.path)
        told.append(seen is not None)
        if seen:
            assert reading.node and not reading.findings, raw
            assert repr(seen.data) == repr(plain(reading.node))
    assert 200 < sum(told) < 1300


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_nothing_plainly_fits_that_a_validator_has_something_against(kind: Any) -> None:
    chance, fits, judge = Random(kind.name), plainly_fits(kind.schema), validator(kind.schema)
    whole = [data for folder in FILES for file in FILES[folder] if file.kind == kind and len(repr(data := data_of(file))) < 8000]
    wrong = 0
    for data in (spoilt(chance, chance.choice(whole)) for _ in range(120 if whole else 0)):
        wrong += not judge.is_valid(data)
        assert not fits(data) or judge.is_valid(data), data
    assert not whole or wrong > 10
    for value in SOMETHING:
        assert not fits(value) or judge.is_valid(value)


def spoilt(chance: Random, data: Any) -> Any:
    """A copy with one to three values changed, taken out or added."""
    data = copy.deepcopy(data)
    for _ in range(chance.randrange(1, 4)):
        spots = list(held(data))
        new = copy.deepcopy(chance.choice(SOMETHING))
        if not spots:
            return new
        parent, key = chance.choice(spots)
        way = chance.randrange(4)
        if way == 0:
            del parent[key]
        elif way == 1 and isinstance(parent, dict):
            parent[chance.choice(("nonsense", "No Id", "title", "an-id", "minutes", "see"))] = new
        elif way == 1:
            parent.append(chance.choice((copy.deepcopy(parent[key]), new)))
        else:
            parent[key] = new
    return data


def held(data: Any) -> Iterator[tuple[Any, Any]]:
    """Every mapping and list with each of its keys or places."""
    for key in data if isinstance(data, dict) else range(len(data)) if isinstance(data, list) else ():
        yield data, key
        yield from held(data[key])


def test_what_fits_a_folder_s_kind_has_the_keys_of_no_other() -> None:
    """So that nobody need ask whether the file lies in the wrong folder."""
    for kind in KINDS.values():
        assert kind.is_list or body(kind.schema)["additionalProperties"] is False or schema(kind.schema)["type"] == "array", kind.name


def test_a_tree_whose_gate_is_of_two_kinds_is_left_to_the_careful_reading() -> None:
    text = "title: T\nsummary: S\nsaid_as: [it skips]\ntree: {any: [a], all: [b]}\n"
    data = {"title": "T", "summary": "S", "said_as": ["it skips"], "tree": {"any": ["a"], "all": ["b"]}}
    assert any(bad_gates(data))
    assert at_a_glance(KINDS["symptom"], Path("x.yaml"), text.encode()) is None
    good = at_a_glance(KINDS["symptom"], Path("x.yaml"), text.replace(", all: [b]", "").encode())
    assert good and good.data == {**data, "tree": {"any": ["a"]}}
