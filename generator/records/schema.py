"""The schema files as validators that also know quantities."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator, FormatChecker, ValidationError
from jsonschema.validators import extend
from referencing import Registry
from referencing.jsonschema import DRAFT202012

from generator.standards.quantity import Quantity

FOLDER = Path(__file__).parents[2] / "schema"
"Where the schema files are."

Schema = dict[str, Any]

_COMMON = "common.schema.json#/$defs/"


@cache
def schema(name: str) -> Schema:
    """One schema file, by its name before `.schema.json`."""
    found: Schema = json.loads((FOLDER / f"{name}.schema.json").read_text("utf-8"))
    return found


@cache
def validator(name: str) -> Draft202012Validator:
    """A validator for one schema file."""
    made: Draft202012Validator = _Validator(_inlined(schema(name)), registry=_registry(), format_checker=_formats())
    return made


def _inlined(part: Any) -> Any:
    """A schema with the common shapes written where they are named, which halves the time.

    A shape's own description stays, since it says how a value is written; the examples are the place's.
    """
    if isinstance(part, list):
        return [_inlined(entry) for entry in part]
    if not isinstance(part, dict):
        return part
    name = part.get("$ref", "")
    if isinstance(name, str) and name.startswith(_COMMON):
        own = {key: value for key, value in part.items() if key not in ("$ref", "description")}
        return {**schema("common")["$defs"][name.removeprefix(_COMMON)], **own}
    return {key: _inlined(value) for key, value in part.items()}


def follow(name: str, part: Schema) -> Schema:
    """A subschema of one schema file with its `$ref` laid under its own keys.

    >>> follow("tools", {"$ref": "common.schema.json#/$defs/id", "examples": ["awl"]})["examples"]
    ['awl']
    """
    if "$ref" not in part:
        return part
    resolver = _registry().resolver(base_uri=f"{name}.schema.json")
    return {**resolver.lookup(part["$ref"]).contents, **part}


@cache
def _registry() -> Registry:
    files = sorted(FOLDER.glob("*.schema.json"))
    contents = ((file.name, _inlined(json.loads(file.read_text("utf-8")))) for file in files)
    return Registry().with_resources((name, DRAFT202012.create_resource(c)) for name, c in contents)


@cache
def _formats() -> FormatChecker:
    checker = FormatChecker(formats=())
    checker.checks("quantity", raises=ValueError)(_is_quantity)
    checker.checks("length", raises=ValueError)(_is_length)
    checker.checks("mass", raises=ValueError)(_is_mass)
    return checker


def _is_quantity(text: object) -> bool:
    return not isinstance(text, str) or bool(Quantity.parse(text).unit)


def _is_length(text: object) -> bool:
    if isinstance(text, str) and Quantity.parse(text).unit not in ("mm", "in"):
        raise ValueError(f"'{text}' is no length in mm or in.")
    return True


def _is_mass(text: object) -> bool:
    if isinstance(text, str) and not (Quantity.parse(text).unit in ("kg", "g") and Quantity.parse(text).number("g") > 0):
        raise ValueError(f"'{text}' is no mass in kg or g above 0.")
    return True


def _pattern(
    validator: Draft202012Validator, pattern: str, text: object, part: Schema
) -> Iterator[ValidationError]:
    """As in ECMA 262: `$` is the very end, not also the place before a last line feed."""
    if isinstance(text, str) and not re.search(pattern.replace("$", r"\Z"), text):
        yield ValidationError("pattern")


def _unique(
    validator: Draft202012Validator, wanted: bool, items: object, part: Schema
) -> Iterator[ValidationError]:
    """As the standard has it, in one pass however long and mixed the list is."""
    if wanted and isinstance(items, list) and repeated(items):
        yield ValidationError("uniqueItems")


def repeated(items: list[Any]) -> list[int]:
    """The places of entries that stand in the list before.

    >>> repeated(["a", "b", {"c": 1}, "a", {"c": 1}])
    [3, 4]
    """
    seen: set[str] = set()
    places = []
    for place, item in enumerate(items):
        text = json.dumps(item, sort_keys=True)
        places += [place] if text in seen else []
        seen.add(text)
    return places


_Validator = extend(Draft202012Validator, {"pattern": _pattern, "uniqueItems": _unique})
