"""The schema files as validators that also know quantities.

The validator's library is loaded when something is first found amiss: that takes longer than to look at a small edit.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Hashable, Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from generator.carried import carried
from generator.standards.quantity import Quantity

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator, FormatChecker, ValidationError
    from referencing import Registry

FOLDER = carried("schema")
"Where the schema files are."

Schema = dict[str, Any]

_COMMON = "common.schema.json#/$defs/"
_OWN = "#/$defs/"


@cache
def schema(name: str) -> Schema:
    """One schema file, by its name before `.schema.json`."""
    found: Schema = json.loads((FOLDER / f"{name}.schema.json").read_text("utf-8"))
    return found


@cache
def validator(name: str) -> Draft202012Validator:
    """A validator for one schema file."""
    made: Draft202012Validator = _validators()(whole(name), registry=_registry(whole), format_checker=_formats())
    return made


@cache
def _validators() -> Any:
    """The class of them."""
    from jsonschema import Draft202012Validator
    from jsonschema.validators import extend

    return extend(Draft202012Validator, {"pattern": _pattern, "uniqueItems": _unique})


@cache
def whole(name: str) -> Schema:
    """One schema file with the common shapes written where they are named."""
    written: Schema = _inlined(schema(name), schema(name))
    return written


def _inlined(part: Any, own: Schema) -> Any:
    """A schema with the common shapes written where they are named, which halves the time.

    So are its own shapes where more is asked of them, so that an error can see both. A common shape's own
    description stays, since it says how a value is written; the examples are the place's.
    """
    if isinstance(part, list):
        return [_inlined(entry, own) for entry in part]
    if not isinstance(part, dict):
        return part
    name = part.get("$ref", "")
    if isinstance(name, str) and name.startswith(_COMMON):
        beside = {key: value for key, value in part.items() if key not in ("$ref", "description")}
        return {**schema("common")["$defs"][name.removeprefix(_COMMON)], **beside}
    if isinstance(name, str) and name.startswith(_OWN) and "required" in part:
        beside = {key: value for key, value in part.items() if key != "$ref"}
        part = {**own["$defs"][name.removeprefix(_OWN)], **beside}
    return {key: _inlined(value, own) for key, value in part.items()}


def follow(name: str, part: Schema) -> Schema:
    """A subschema of one schema file with what its `$ref` leads to laid under its own keys.

    >>> follow("tools", {"$ref": "common.schema.json#/$defs/id", "examples": ["awl"]})["examples"]
    ['awl']
    """
    return _followed(_registry(schema).resolver(base_uri=f"{name}.schema.json"), part)


def _followed(resolver: Any, part: Schema) -> Schema:
    if "$ref" not in part:
        return part
    found = resolver.lookup(part["$ref"])
    beside = {key: value for key, value in part.items() if key != "$ref"}
    return {**_followed(found.resolver, found.contents), **beside}


@cache
def _registry(read: Callable[[str], Schema]) -> Registry:
    """Every schema file, by its name, as `read` gives it."""
    from referencing import Registry
    from referencing.jsonschema import DRAFT202012

    names = sorted(file.name for file in FOLDER.glob("*.schema.json"))
    contents = ((name, read(name.removesuffix(".schema.json"))) for name in names)
    return Registry().with_resources((name, DRAFT202012.create_resource(c)) for name, c in contents)


@cache
def _formats() -> FormatChecker:
    """What knows the formats that our schema files name."""
    from jsonschema import FormatChecker

    checker = FormatChecker(formats=())
    for name, test in _FORMATS.items():
        checker.checks(name, raises=ValueError)(test)
    return checker


def conforms(value: object, format: str) -> bool:
    """Whether a value has a format, of those that our schema files name."""
    try:
        return format not in _FORMATS or _FORMATS[format](value)
    except ValueError:
        return False


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


_FORMATS: dict[str, Callable[[object], bool]] = {"quantity": _is_quantity, "length": _is_length, "mass": _is_mass}
"Format -> whether a value has it; a ValueError says that it has not."


def _pattern(
    validator: Draft202012Validator, pattern: str, text: object, part: Schema
) -> Iterator[ValidationError]:
    """As in ECMA 262: `$` is the very end, not also the place before a last line feed."""
    if isinstance(text, str) and not re.search(pattern.replace("$", r"\Z"), text):
        from jsonschema import ValidationError

        yield ValidationError("pattern")


def _unique(
    validator: Draft202012Validator, wanted: bool, items: object, part: Schema
) -> Iterator[ValidationError]:
    """As the standard has it, in one pass however long and mixed the list is."""
    if wanted and isinstance(items, list) and repeated(items):
        from jsonschema import ValidationError

        yield ValidationError("uniqueItems")


def repeated(items: list[Any]) -> list[int]:
    """The places of entries that stand in the list before.

    >>> repeated(["a", "b", {"c": 1}, "a", {"c": 1.0}, True, 1])
    [3, 4]
    """
    seen: set[Hashable] = set()
    places = []
    for place, item in enumerate(items):
        key = _equal(item)
        places += [place] if key in seen else []
        seen.add(key)
    return places


def _equal(item: Any) -> Hashable:
    """The same for two values where the standard has them equal (core, 4.2.2): 1 and 1.0 are, 1 and true are not."""
    if isinstance(item, dict):
        return "{", frozenset((key, _equal(value)) for key, value in item.items())
    return ("[", tuple(map(_equal, item))) if isinstance(item, list) else (type(item) is bool, item)
