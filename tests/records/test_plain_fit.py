"""What plainly fits a schema, keyword by keyword, beside the published validator of the jsonschema library."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from generator.records import plain_fit
from generator.records.plain_fit import plainly_fits
from generator.records.schema import schema

SCHEMAS = Path(__file__).parents[2] / "schema"
VALUES: tuple[Any, ...] = (
    *(None, True, False, 0, 1, 2, 3, -1, 2.0, 2.5, 1e300, "", "a", "b", "ab", "abc", "a\n", "1", "Ab"),
    *([], [1], [1, 2], [1, 2, 3], ["a", "b"], ["a", "a"], [1, 1.0], [1, True], [{"a": 1}, {"a": 1}], [{"a": 1}, {"a": 2}], [["a"], "a"]),
    *({}, {"a": 1}, {"a": "x"}, {"b": 1}, {"a": 1, "b": 2}, {"a": 1, "b": "x"}, {"A": 1}, {"a": 1, "b": 2, "c": 3}, {"ab": None}, {"a": {"a": 1}}),
)
"Values of every type, on both sides of every bound below and at it."
JUST_AS_THE_VALIDATOR: tuple[Any, ...] = (
    *(True, False, {}, {"title": "A word", "description": "Says nothing.", "default": 1, "examples": [1]}),
    *({"type": name} for name in ("object", "array", "string", "boolean", "null", "integer", "number")),
    *({"type": ["string", "null"]}, {"type": ["integer", "string"]}, {"type": ["number", "array"]}, {"type": ["integer", "number"]}),
    *({"properties": {"a": {"type": "integer"}}}, {"properties": {"a": False}}, {"properties": {"a": {"properties": {"a": {"type": "string"}}}}}),
    {"properties": {"a": {"type": "integer"}}, "additionalProperties": False},
    {"properties": {"a": {"type": "integer"}}, "additionalProperties": {"type": "string"}},
    *({"additionalProperties": False}, {"additionalProperties": {"type": "integer"}}, {"additionalProperties": True}),
    *({"propertyNames": {"maxLength": 1}}, {"propertyNames": {"pattern": "^[a-z]$"}}),
    *({"items": {"type": "integer"}}, {"items": False}, {"items": {"minProperties": 1, "type": "object"}}),
    *({"required": ["a"]}, {"required": ["a", "b"]}, {"required": []}),
    *({"dependentRequired": {"a": ["b"]}}, {"dependentRequired": {"a": ["b"], "b": ["c"]}}),
    *({"uniqueItems": True}, {"uniqueItems": False}),
    *({"pattern": "b"}, {"pattern": "^a"}, {"type": "string", "pattern": "^[a-z]+"}),
    *({"minimum": 2}, {"maximum": 2}, {"exclusiveMinimum": 2}, {"minimum": 2.5}, {"type": "number", "minimum": 0, "maximum": 2.5}),
    *({"minLength": 2}, {"maxLength": 2}, {"minItems": 2}, {"maxItems": 2}, {"minProperties": 2}, {"maxProperties": 2}),
    {"if": {"required": ["a"]}, "then": {"required": ["b"]}, "else": {"maxProperties": 0}},
    {"if": {"type": "object"}, "then": {"minProperties": 1}},
    {"if": {"type": "object", "required": ["a"]}, "else": {"type": "string"}},
    {"if": {"required": ["a"]}},
)
NARROWER: tuple[tuple[Any, list[Any]], ...] = (
    ({"enum": ["a", 1, None]}, ["a"]),
    ({"enum": ["a", "ab"]}, ["a", "ab"]),
    ({"const": True}, [True]),
    ({"const": 2}, [2]),
    ({"const": "a"}, ["a"]),
    ({"type": "string", "contentEncoding": "base64"}, []),
    ({"if": {"minLength": 2}, "then": True, "else": True}, []),
    ({"if": {"type": "object", "minProperties": 1}, "then": True}, []),
)
"Schemas that are read more narrowly than the standard has them, and what fits all the same among values that a word or a number can be."


def fitting(part: Any, values: tuple[Any, ...] = VALUES) -> list[str]:
    fits = plain_fit._made(part, "check")
    return [repr(value) for value in values if fits(value)]


@pytest.mark.parametrize("part", JUST_AS_THE_VALIDATOR, ids=repr)
def test_a_keyword_says_of_each_value_what_the_validator_says(part: Any) -> None:
    judge = Draft202012Validator(part)
    assert fitting(part) == [repr(value) for value in VALUES if judge.is_valid(value)]


@pytest.mark.parametrize(("part", "fits"), NARROWER, ids=repr)
def test_a_keyword_that_is_read_narrowly_never_lets_more_through(part: Any, fits: list[Any]) -> None:
    judge, scalars = Draft202012Validator(part), tuple(value for value in VALUES if not isinstance(value, (list, dict)))
    assert fitting(part, scalars) == list(map(repr, fits))
    assert set(fitting(part)) <= {repr(value) for value in VALUES if judge.is_valid(value)}


@pytest.mark.parametrize("format", ["quantity", "length", "mass"])
def test_a_format_bars_words_that_are_no_such_thing_and_nothing_else(format: str) -> None:
    fits = plain_fit._made({"format": format}, "check")
    good = {"quantity": {"5 mm", "1/4 in", "7 kg"}, "length": {"5 mm", "1/4 in"}, "mass": {"7 kg"}}[format]
    assert {text for text in ("5 mm", "1/4 in", "7 kg", "7", "a word") if fits(text)} == good
    assert all(fits(value) for value in (None, 7, [], {}, True))


def test_the_end_of_a_word_is_its_very_end() -> None:
    """ECMA 262, which the standard takes its patterns from, has no end before a last line feed."""
    assert fitting({"type": "string", "pattern": "^a$"}) == ["'a'"]


def test_several_keywords_must_all_fit() -> None:
    part = {"type": "string", "minLength": 1, "maxLength": 2, "pattern": "^a"}
    assert fitting(part) == ["'a'", "'ab'", "'a\\n'"]


def test_a_reference_is_to_the_file_itself_or_to_the_one_it_names() -> None:
    own = plain_fit._made({"$ref": "#/$defs/gate"}, "symptom")
    assert own({"any": ["belt-slack", {"id": "loose", "title": "Loose", "all": ["a", "b"]}]})
    assert not own({"any": ["belt-slack", {"any": [{"some": ["a"]}]}]}) and not own({"any": ["Belt slack"]})
    other = plain_fit._made({"$ref": "assembly.schema.json#/$defs/part-changes"}, "family")
    assert other({"behind": ["cover"]}) and not other({"behind": "cover"}) and not other({"nonsense": 1})


def test_every_keyword_of_the_schema_files_is_known() -> None:
    """One that is not known would make reading slow: each file of its kind would be read with care."""
    met = {key for path in SCHEMAS.glob("*.schema.json") for key in _keywords(schema(path.name.removesuffix(".schema.json")))}
    assert met <= plain_fit._MAKERS.keys() | plain_fit._SILENT
    assert {"$ref", "if", "pattern", "format"} <= met


def _keywords(part: Any) -> set[str]:
    """Of a schema and all below it: what maps names to schemas holds names, not keywords."""
    if not isinstance(part, dict):
        return set()
    found = set(part)
    for key, below in part.items():
        if key in ("properties", "$defs"):
            found = found.union(*map(_keywords, below.values()))
        elif key in ("items", "additionalProperties", "propertyNames", "if", "then", "else"):
            found |= _keywords(below)
    return found


def test_a_schema_file_is_made_into_a_test_once() -> None:
    assert plainly_fits("tools") is plainly_fits("tools")
    assert plainly_fits("tools")({"awl": {"title": "Awl"}}) and not plainly_fits("tools")({"awl": {"titel": "Awl"}})
