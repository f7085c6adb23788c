"""The classes of `model` against the schema: nothing may be in one and not in the other."""

import ast
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path

import pytest

from generator.records import model
from generator.records.kinds import KINDS
from generator.records.schema import Schema, follow, schema

PAIRS = {
    "Family": ("family", []),
    "NeedleFit": ("family", ["properties", "needle"]),
    "Figure": ("family", ["properties", "figures", "additionalProperties", "then"]),
    "AssemblyUse": ("family", ["properties", "assemblies", "items", "else"]),
    "Assembly": ("assembly", []),
    "Part": ("assembly", ["$defs", "part"]),
    "Picture": ("common", ["$defs", "pictures", "items"]),
    "Wait": ("common", ["$defs", "wait"]),
    "Move": ("assembly", ["$defs", "move"]),
    "Setting": ("assembly", ["$defs", "setting"]),
    "Reading": ("assembly", ["$defs", "setting-changes", "properties", "read"]),
    "Gauge": ("assembly", ["$defs", "setting-changes", "properties", "gauge"]),
    "Target": ("assembly", ["$defs", "setting-changes", "properties", "target"]),
    "OilPoint": ("assembly", ["properties", "oil", "items"]),
    "Symptom": ("symptom", []),
    "TreeTransfer": ("symptom", ["$defs", "node", "else", "then"]),
    "FailureMode": ("failure-mode", []),
    "LooksLike": ("failure-mode", ["properties", "looks_like", "items"]),
    "RemedySpec": ("failure-mode", ["properties", "remedy"]),
    "Check": ("check", []),
    "Outcome": ("check", ["properties", "outcomes", "items"]),
    "Fastener": ("fasteners", ["items"]),
    "Flat": ("fasteners", ["items", "properties", "flat"]),
    "Tally": ("tally", []),
    "Found": ("tally", ["properties", "found", "else", "items"]),
    "Took": ("tally", ["properties", "took", "items"]),
    "Technique": ("technique", []),
    "TechniqueStep": ("technique", ["properties", "steps", "items"]),
    "Tool": ("tools", ["additionalProperties"]),
    "Caution": ("cautions", ["additionalProperties"]),
    "Term": ("glossary", ["additionalProperties"]),
    "Source": ("sources", ["additionalProperties"]),
    "Feature": ("features", ["additionalProperties"]),
    "FigureKind": ("figures", ["additionalProperties"]),
    "Question": ("questions", ["additionalProperties"]),
    "MachinePosition": ("positions", ["additionalProperties"]),
    "ClosingTest": ("shop", ["properties", "closing_tests", "items"]),
    "Shop": ("shop", []),
}
"Class -> where the schema has its shape. A gate's keys any, all, at_least and of become kind, inputs and k."

OWN = {"PictureFile", "Records", "TreeEvent", "TreeGate"}


def part_of(name: str, way: list[str]) -> Schema:
    part = schema(name)
    for step in way:
        part = part[step]
    return follow(name, part)


@pytest.mark.parametrize("name", PAIRS)
def test_a_class_has_the_fields_of_its_schema(name: str) -> None:
    there = set(part_of(*PAIRS[name])["properties"])
    assert {field.name for field in fields(getattr(model, name))} - {"id"} == there


@pytest.mark.parametrize("name", [n for n in PAIRS if n not in ("Shop", "Figure")])
def test_a_field_without_a_default_is_one_that_the_schema_requires(name: str) -> None:
    needed = {
        field.name
        for field in fields(getattr(model, name))
        if field.default is MISSING and field.default_factory is MISSING
    }
    assert needed - {"id"} == set(part_of(*PAIRS[name]).get("required", ()))


def test_every_class_is_held_against_the_schema() -> None:
    classes = {name for name in model.__all__ if is_dataclass(getattr(model, name))}
    assert classes == PAIRS.keys() | OWN


def test_every_object_of_the_schema_has_a_class() -> None:
    held = [part_of(*way) for way in PAIRS.values()]
    held += [part_of("assembly", ["$defs", name]) for name in ("part-changes", "setting-changes")]
    held += [part_of("symptom", ["$defs", "gate"])]
    names = {kind.schema for kind in KINDS.values()}
    assert [part for name in names for part in objects(schema(name)) if part not in held] == []


def objects(part: object) -> list[Schema]:
    if isinstance(part, list):
        return [found for entry in part for found in objects(entry)]
    if not isinstance(part, dict):
        return []
    below = [found for key, value in part.items() if key != "examples" for found in objects(value)]
    is_object = isinstance(part.get("properties"), dict) and part.get("additionalProperties") is False
    return [part, *below] if is_object else below


def test_part_changes_have_the_keys_of_a_part_and_setting_changes_those_of_a_setting() -> None:
    for name in ("part", "setting"):
        whole, changes = (part_of("assembly", ["$defs", n]) for n in (name, f"{name}-changes"))
        assert whole["properties"] == changes["properties"]
        assert "required" not in changes


def test_every_field_says_what_it_is() -> None:
    for file in Path(model.__file__).parent.glob("*.py"):
        for shape in ast.walk(ast.parse(file.read_text())):
            if isinstance(shape, ast.ClassDef):
                silent = [
                    a.target.id
                    for a, after in zip(shape.body, [*shape.body[1:], None], strict=True)
                    if isinstance(a, ast.AnnAssign)
                    and not (isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant))
                ]
                assert silent == [], (file.name, shape.name)


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_a_kind_has_its_place_in_the_records(kind) -> None:
    assert kind.group in {field.name for field in fields(model.Records)}
    assert follow(kind.schema, schema(kind.schema))["title"]


def test_a_target_says_both_ends_or_the_one_that_it_has() -> None:
    ends = {("1 mm", "2 mm"): "1 mm to 2 mm", ("1 mm", "1 mm"): "1 mm", ("1 mm", None): "at least 1 mm", (None, "2 mm"): "at most 2 mm", (None, None): ""}
    assert {end: model.Target("gap", "demo", low=end[0], high=end[1]).span for end in ends} == ends
