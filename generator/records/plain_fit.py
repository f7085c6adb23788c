"""Whether data plainly fits a schema: its keywords as functions, made once, many times as fast as a validator.

What does not plainly fit is for the validator to judge, which says in words what is wrong. A keyword that is unknown
here makes nothing fit, and one may be read more narrowly than the standard has it, never more widely.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Any

from generator.records.schema import Schema, conforms, repeated, whole

Fits = Callable[[Any], bool]

_SILENT = {"$schema", "$id", "$defs", "title", "description", "default", "examples", "then", "else"}
"Keywords that bar nothing by themselves."
_TYPES = {"object": dict, "array": list, "string": str, "boolean": bool, "null": type(None), "integer": int}
_NUMBERS = (int, float)
_EXACT = {"type", "required"}
"Keywords that say no just where the standard does, so that an `if` can rest on them."


@cache
def plainly_fits(name: str) -> Fits:
    """Whether data plainly fits a schema file, by its name before `.schema.json`.

    >>> fits = plainly_fits("tools")
    >>> fits({"awl": {"title": "Awl"}}), fits({"awl": {"titel": "Awl"}})
    (True, False)
    """
    return _made(whole(name), name)


def _made(part: Any, name: str) -> Fits:
    """The test of a subschema in the file of a name."""
    if isinstance(part, bool):
        return lambda data: part
    tests = [_MAKERS.get(key, _never)(value, part, name) for key, value in part.items() if key not in _SILENT]
    return tests[0] if len(tests) == 1 else lambda data: all(test(data) for test in tests)


def _never(value: Any, part: Schema, name: str) -> Fits:
    return lambda data: False


def _ref(value: str, part: Schema, name: str) -> Fits:
    """Made when first asked: a tree's gate holds gates."""
    file, _, way = value.partition("#/$defs/")

    def fits(data: Any) -> bool:
        return _defined(file.removesuffix(".schema.json") or name, way)(data)

    return fits


@cache
def _defined(name: str, way: str) -> Fits:
    return _made(whole(name)["$defs"][way], name)


def _type(value: str | list[str], part: Schema, name: str) -> Fits:
    named = [value] if isinstance(value, str) else value
    types = {_TYPES[word] for word in named if word != "number"}.union(_NUMBERS if "number" in named else ())
    if "integer" in named and "number" not in named:  # 2.0 is a whole number too
        return lambda data: type(data) in types or (type(data) is float and data.is_integer())
    return lambda data: type(data) in types


def _properties(value: Schema, part: Schema, name: str) -> Fits:
    tests = {key: _made(below, name) for key, below in value.items()}
    others = _made(part.get("additionalProperties", True), name)

    def fits(data: Any) -> bool:
        return type(data) is not dict or all(tests.get(key, others)(below) for key, below in data.items())

    return fits


def _additional(value: Schema | bool, part: Schema, name: str) -> Fits:
    """Read with the properties, where there are some."""
    return (lambda data: True) if "properties" in part else _properties({}, part, name)


def _names(value: Schema, part: Schema, name: str) -> Fits:
    test = _made(value, name)
    return lambda data: type(data) is not dict or all(map(test, data))


def _items(value: Schema, part: Schema, name: str) -> Fits:
    test = _made(value, name)
    return lambda data: type(data) is not list or all(map(test, data))


def _required(value: list[str], part: Schema, name: str) -> Fits:
    keys = frozenset(value)
    return lambda data: type(data) is not dict or keys <= data.keys()


def _dependent(value: dict[str, list[str]], part: Schema, name: str) -> Fits:
    return lambda data: type(data) is not dict or all(data.keys() >= {*keys} for key, keys in value.items() if key in data)


def _enum(value: list[Any], part: Schema, name: str) -> Fits:
    words = frozenset(word for word in value if type(word) is str)
    return lambda data: type(data) is str and data in words


def _const(value: Any, part: Schema, name: str) -> Fits:
    return lambda data: type(data) is type(value) and data == value


def _unique(value: bool, part: Schema, name: str) -> Fits:
    return lambda data: type(data) is not list or not value or not repeated(data)


def _pattern(value: str, part: Schema, name: str) -> Fits:
    found = re.compile(value.replace("$", r"\Z")).search
    return lambda data: type(data) is not str or found(data) is not None


def _format(value: str, part: Schema, name: str) -> Fits:
    return lambda data: conforms(data, value)


def _if(value: Schema, part: Schema, name: str) -> Fits:
    if not value.keys() <= _EXACT:
        return lambda data: False
    test, then, other = _made(value, name), _made(part.get("then", True), name), _made(part.get("else", True), name)
    return lambda data: then(data) if test(data) else other(data)


def _of(types: tuple[type, ...], within: Callable[[Any, Any], bool]) -> Callable[[Any, Schema, str], Fits]:
    """A keyword that sets a bound on values of some types alone."""
    return lambda value, part, name: lambda data: type(data) not in types or within(data, value)


_MAKERS: dict[str, Callable[[Any, Schema, str], Fits]] = {
    "$ref": _ref,
    "type": _type,
    "properties": _properties,
    "additionalProperties": _additional,
    "propertyNames": _names,
    "items": _items,
    "required": _required,
    "dependentRequired": _dependent,
    "enum": _enum,
    "const": _const,
    "uniqueItems": _unique,
    "pattern": _pattern,
    "format": _format,
    "if": _if,
    "minimum": _of(_NUMBERS, lambda data, least: data >= least),
    "exclusiveMinimum": _of(_NUMBERS, lambda data, least: data > least),
    "maximum": _of(_NUMBERS, lambda data, most: data <= most),
    "minLength": _of((str,), lambda data, least: len(data) >= least),
    "maxLength": _of((str,), lambda data, most: len(data) <= most),
    "minItems": _of((list,), lambda data, least: len(data) >= least),
    "maxItems": _of((list,), lambda data, most: len(data) <= most),
    "minProperties": _of((dict,), lambda data, least: len(data) >= least),
    "maxProperties": _of((dict,), lambda data, most: len(data) <= most),
}
"Keyword -> what makes its test from its value, the schema that it stands in, and the schema file's name."
