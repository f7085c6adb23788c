"""What a key takes, in words, read off the schema."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from generator.records.kinds import KINDS
from generator.records.references import FITS, NAMES
from generator.records.schema import Schema, follow

_COMMON = {
    **dict.fromkeys(("id", "any-ref", "position", "source"), "an id"),
    "feature": "an id with underscores",
    "gate-ref": "symptom/gate",
    "line": "one line of words",
    "text": "words in Markdown",
    "length": "a length in mm or in",
    "quantity": "a number with its unit",
    "price": "a price, or low..high",
}
"Common shapes that are strings -> what they are."
_PLAIN = {"string": "words", "integer": "a whole number", "number": "a number", "boolean": "true or false", "object": "a mapping"}
_LIMITS = {"minimum": "from", "exclusiveMinimum": "above", "maximum": "up to", "exclusiveMaximum": "below"}


def taken(name: str, path: str, part: Schema) -> str:
    """What the key at a path of a schema file takes.

    >>> taken("check", "trust", {"$ref": "common.schema.json#/$defs/share"})
    'a number, above 0.5, up to 0.999'
    >>> taken("check", "reach", {"type": "array", "items": {"$ref": "common.schema.json#/$defs/id"}})
    'a list, each the id of a part'
    """
    return _value(name, part, _named(name, path))


def allowed(name: str, part: Schema) -> tuple[str, ...]:
    """The only words that a key, or each entry of it, takes; empty where any word will do.

    >>> allowed("check", {"$ref": "common.schema.json#/$defs/power"})
    ('off', 'on', 'handwheel-only')
    """
    whole = follow(name, part)
    held = [whole, *(whole[key] for key in ("items", "additionalProperties", "propertyNames") if isinstance(whole.get(key), dict))]
    return tuple(word for shape in held for branch in _branches(name, shape) for word in branch.get("enum", ()))


def _value(name: str, part: Schema, named: str) -> str:
    """Every way of writing a value, each once."""
    return _or(_said(name, branch, named) for branch in _branches(name, part))


def _branches(name: str, part: Schema) -> Iterator[Schema]:
    """The shapes of a value: itself, or the branches of a choice, each with the common shape's name kept."""
    whole = {**follow(name, part), "$ref": part.get("$ref", "")}
    choices = [key for key in ("then", "else") if key in whole]
    if not choices:
        yield whole
    for key in choices:
        yield from _branches(name, whole[key])


def _said(name: str, shape: Schema, named: str) -> str:
    """One shape of a value in words; `named` is what an id in it is the id of."""
    if "items" in shape:
        return f"a list, each {_value(name, shape['items'], named)}"
    if isinstance(shape.get("additionalProperties"), dict):
        return f"a mapping from {_id(named)} to {_value(name, shape['additionalProperties'], '')}"
    if "enum" in shape:
        return "one word of these"
    if "const" in shape:
        return "true, or left out"
    return ", ".join([_kind(shape, named), *_limits(shape)])


def _kind(shape: Schema, named: str) -> str:
    common, _, word = shape["$ref"].partition("#/$defs/")
    said = _COMMON.get(word, "") if common == "common.schema.json" else ""
    if said.startswith("an id"):
        return _id(named, said)
    if shape.get("format") == "mass":
        return "a weight in kg or g"
    types = shape["type"] if isinstance(shape["type"], list) else [shape["type"]]
    return said or _or(_PLAIN[word] for word in types)


def _id(named: str, plain: str = "an id") -> str:
    article = "an" if named[:1] in "aeiou" else "a"
    return f"the id of {article} {named}" if named else plain


def _limits(shape: Schema) -> Iterator[str]:
    yield from (f"{_LIMITS[key]} {shape[key]}" for key in _LIMITS if key in shape)
    if shape.get("maxLength", 80) < 80:
        yield f"at most {shape['maxLength']} letters"


def _named(name: str, path: str) -> str:
    """The kind of what the value, or its keys, name; empty where it names no record."""
    kind = next(kind.name for kind in KINDS.values() if kind.schema == name)
    way = tuple(re.sub(r"\[\]", ".*", path).replace("<id>", "*").split("."))
    way = ("*", *way) if name == "fasteners" else way
    table: Mapping[tuple[str, ...], str] = NAMES.get(kind, {})
    target = next((table[route] for route in (way, (*way, "*"), (*way, "*:")) if route in table), "")
    return (_or(FITS) if target == "fit" else target).replace("-", " ")


def _or(words: Iterable[str]) -> str:
    return " or ".join(dict.fromkeys(words))
