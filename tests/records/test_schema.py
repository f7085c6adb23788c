"""The schema files themselves: JSON Schema's own meta-schema and their own examples hold them to account."""

import pytest
from jsonschema import Draft202012Validator

from generator.records.explain import SAYINGS
from generator.records.schema import FOLDER, Schema, schema, validator

NAMES = sorted(file.name.removesuffix(".schema.json") for file in FOLDER.glob("*.schema.json"))


def described(name: str, part: object, way: str = "") -> list[tuple[str, Schema]]:
    """Every subschema that gives examples."""
    if isinstance(part, list):
        return [f for place, entry in enumerate(part) for f in described(name, entry, f"{way}/{place}")]
    if not isinstance(part, dict):
        return []
    below = [f for k, v in part.items() if k != "examples" for f in described(name, v, f"{way}/{k}")]
    return [(way, part), *below] if isinstance(part.get("examples"), list) else below


@pytest.mark.parametrize("name", NAMES)
def test_a_schema_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(schema(name))


@pytest.mark.parametrize("name", NAMES)
def test_every_example_in_a_schema_keeps_to_it(name: str) -> None:
    whole = validator(name)
    for way, part in described(name, schema(name)):
        for example in part["examples"]:
            there = whole.evolve(schema={"$ref": f"{name}.schema.json#{way}"})
            assert [e.message for e in there.iter_errors(example)] == [], (way, example)


@pytest.mark.parametrize("name", NAMES)
def test_every_property_has_a_description_and_an_example(name: str) -> None:
    def properties(part: object) -> list[tuple[str, Schema]]:
        if isinstance(part, list):
            return [found for entry in part for found in properties(entry)]
        if not isinstance(part, dict):
            return []
        own = part["properties"].items() if isinstance(part.get("properties"), dict) else ()
        return [*own, *(f for key, v in part.items() if key != "examples" for f in properties(v))]

    for key, part in properties(schema(name)):
        assert part.get("description"), key
        assert part.get("examples") or part.get("type") == "object", key


def test_an_id_ends_where_its_line_ends() -> None:
    check = validator("failure-mode")
    record = {"title": "T", "part": "hook\n", "seen": 1, "remedy": {"renew": ["hook"]}}
    assert [list(error.path) for error in check.iter_errors(record)] == [["part"]]


SILENT = {"$ref", "$id", "$schema", "$defs", "title", "description", "default", "examples", "if", "then", "else"}
"Keywords that make no error of their own."

LEADING_ON = {"properties", "items", "propertyNames"}
"Keywords whose errors are those of the subschemas."


def keywords(part: object) -> set[str]:
    if not isinstance(part, dict):
        return set()
    found = set(part)
    for key in ("properties", "$defs"):
        found |= {k for below in part.get(key, {}).values() for k in keywords(below)}
    for key in ("items", "propertyNames", "additionalProperties", "if", "then", "else"):
        found |= keywords(part.get(key))
    return found


def test_every_keyword_that_can_fail_has_its_sentence() -> None:
    used = {keyword for name in NAMES for keyword in keywords(schema(name))}
    assert used - SILENT - LEADING_ON == SAYINGS.keys()
