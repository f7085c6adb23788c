"""Schema errors as plain sentences, each with its mend."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Protocol, cast

import yaml

from generator.records.finding import Finding, did_you_mean, fault, printable, quote
from generator.records.ids import odd_letter, slug
from generator.records.node import Places, Route
from generator.records.schema import repeated
from generator.records.schema_keys import all_keys, homes_of

if TYPE_CHECKING:
    from jsonschema import ValidationError

Saying = tuple[Route, bool, str, str]
"Route, whether its key is meant rather than its value, message, hint."


class _Error(Protocol):
    """A schema error whose parts are all set, as they are on every error of a validator."""

    instance: Any
    schema: Mapping[str, Any]
    validator: str
    validator_value: Any
    message: str
    absolute_path: Sequence[str | int]
    schema_path: Sequence[str | int]
    cause: BaseException | None


def explain(found: ValidationError, places: Places, name: str) -> Iterator[Finding]:
    """What one error of the schema of this name says about a record, at the key or the value that is wrong."""
    error = cast(_Error, found)
    route: Route = tuple(error.absolute_path)
    if "propertyNames" in error.schema_path:
        yield fault(places.of((*route, error.instance), key=True), *_shape(error, "The key "))
        return
    beside = (name,) if error.validator == "additionalProperties" else ()
    for where, key, message, hint in SAYINGS[error.validator](error, route, *beside):
        yield fault(places.of(where, key), message, hint)


def shown(value: object) -> str:
    """A value as YAML on one line."""
    text = yaml.safe_dump(value, default_flow_style=True, allow_unicode=True, width=10**6, sort_keys=False)
    return text.removesuffix("\n...\n").strip()


def _unknown_key(error: _Error, route: Route, name: str) -> Iterator[Saying]:
    known = list(error.schema["properties"])
    for key in error.instance:
        if key not in known:
            listed = _cut_text(key) or f"The keys are {', '.join(known)}."
            near = listed if key in all_keys() else did_you_mean(key, known, listed)
            hint = _elsewhere(route, homes_of(name, str(key))) or near
            yield (*route, key), True, f"{quote(key)} is no key that can stand here.", hint


def _elsewhere(route: Route, homes: Sequence[str]) -> str:
    """The mend for a key that belongs deeper in the record: below where it stands, if it can stand there."""
    below = [home for home in homes if route and home.startswith(str(route[0]))] or homes
    return f"It belongs in {' or '.join(quote(home) for home in below[:2])}." if homes else ""


def _cut_text(key: object) -> str:
    """The mend where a comma inside braces has cut a text in two."""
    words = " " in str(key).strip()
    return "If it is the end of a text, put the whole text in quotes: inside braces a comma ends it." if words else ""


def _missing_key(error: _Error, route: Route) -> Iterator[Saying]:
    for key in error.validator_value:
        if key not in error.instance:
            yield route, False, f"{quote(key)} is missing.", f"Add it, such as {_example_of(error, key)}."


def _missing_partner(error: _Error, route: Route) -> Iterator[Saying]:
    for key, partners in error.validator_value.items():
        for partner in partners:
            if key in error.instance and partner not in error.instance:
                message = f"{quote(key)} needs {quote(partner)} beside it."
                yield (*route, key), True, message, f"Add it, such as {_example_of(error, partner)}."


def _example_of(error: _Error, key: str) -> str:
    return f"`{key}: {shown(error.schema['properties'][key]['examples'][0])}`"


def _kind(error: _Error, route: Route) -> Iterator[Saying]:
    wanted = error.validator_value if isinstance(error.validator_value, list) else [error.validator_value]
    found, wish = _called(error.instance), " or ".join(_CALLED[name] for name in wanted)
    if wanted == ["object"] and "else" in list(error.schema_path)[-3:]:
        wish = "an id or a mapping"
    if wish == "a mapping" and isinstance(error.instance, list):
        hint = f"Take the dashes away: write each as 'key: value'{_such_as(error)}."
        yield route, False, f"{_name(route)} is a list, where keys belong.", hint
    else:
        yield route, False, f"{_name(route)} is {found}, not {wish}.", _cast(error, wanted)


def _cast(error: _Error, wanted: list[str]) -> str:
    value = error.instance
    if value is None:
        return f"Take the key out, or give it a value{_such_as(error)}."
    if "format" in error.schema:
        return f"Write a number and its unit{_such_as(error)}."
    if "string" in wanted and isinstance(value, dict):
        return "Put the whole text in quotes if it holds a colon."
    if "string" in wanted and not isinstance(value, list):
        return f'Put it in quotes: "{shown(value)}".'
    if "array" in wanted and isinstance(value, dict):
        return f"Begin each entry with a dash{_such_as(error)}."
    if "array" in wanted:
        return f"Write a list: {printable(shown([value]))[:80]}."
    return f"Write {_CALLED[wanted[0]]}{_such_as(error)}."


def _such_as(error: _Error) -> str:
    examples = error.schema.get("examples")
    return f", such as `{shown(examples[0])}`" if examples else ""


_CALLED = {
    "object": "a mapping",
    "array": "a list",
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
}


_KINDS: dict[type, str] = {dict: "a mapping", list: "a list", str: "text"}


def _called(value: object) -> str:
    if value is None:
        return "empty"
    if isinstance(value, bool):
        return "true" if value else "false"
    return _KINDS.get(type(value), f"the number {value}")


def _name(route: Route) -> str:
    """What to call the value at a route, at the beginning of a sentence."""
    if not route:
        return "The record"
    if isinstance(route[-1], str):
        return quote(route[-1])
    owner = next((key for key in reversed(route) if isinstance(key, str)), None)
    return f"Entry {route[-1] + 1}" + (f" of {quote(owner)}" if owner else "")


def _choice(error: _Error, route: Route) -> Iterator[Saying]:
    words = [str(word) for word in error.validator_value]
    hint = did_you_mean(str(error.instance), words, "").strip()
    message = f"{_name(route)} is {quote(error.instance)}, which is none of {', '.join(words)}."
    yield route, False, message, hint or f"Write one of them, such as {words[0]}."


def _constant(error: _Error, route: Route) -> Iterator[Saying]:
    value = shown(error.validator_value)
    yield route, False, f"{_name(route)} can only be {value}.", f"Write {value}, or take the key out."


def _written(error: _Error, route: Route) -> Iterator[Saying]:
    yield route, False, *_shape(error, "")


def _shape(error: _Error, before: str) -> tuple[str, str]:
    """Message and hint for text of the wrong shape."""
    value = str(error.instance)
    if error.validator == "maxLength":
        return f"{before}{quote(value)} is longer than {error.validator_value} characters.", "Shorten it."
    if value.endswith("\n") and "\n" not in value[:-1]:
        return f"{quote(value)} ends in a line break.", "Write '>-' or '|-' in place of '>' or '|'."
    if "\n" in value:
        return f"{quote(value)} goes over several lines.", "Write it in one line."
    what = error.schema["description"].removesuffix(".")
    message = f"{before}{quote(value)} is not written as it must be: {what[:1].lower()}{what[1:]}."
    return message + odd_letter(value), f"Write {_meant(error)}."


def _meant(error: _Error) -> str:
    """The value as it may be meant, if that fits the pattern; else the schema's example."""
    for joint in "-_":
        guess = slug(str(error.instance), joint)
        if error.validator == "pattern" and re.fullmatch(error.validator_value, guess):
            return quote(guess)
    return f"it like {quote(shown(error.schema['examples'][0]))}"


_WISHES = {"length": "a length in mm or in", "mass": "a mass in kg", "quantity": "a number and a unit"}
"Format -> what to write."


def _measure(error: _Error, route: Route) -> Iterator[Saying]:
    message, _, hint = str(error.cause).partition(": write ")
    wish = _WISHES[error.validator_value]
    yield route, False, f"{_name(route)}: {printable(message).rstrip('.')}.", (
        f"Write {hint}" if hint else f"Write {wish}{_such_as(error)}."
    )


def _bound(words: str, mend: str) -> Callable[[_Error, Route], Iterator[Saying]]:
    def say(error: _Error, route: Route) -> Iterator[Saying]:
        bound = error.validator_value
        what = f"{_name(route)} {words.format(value=error.instance, bound=bound)}."
        yield route, False, what, mend.format(bound=bound, example=_such_as(error))

    return say


def _twice(error: _Error, route: Route) -> Iterator[Saying]:
    for place in repeated(error.instance):
        message = f"{quote(error.instance[place])} stands twice in {_name(route)}."
        yield (*route, place), False, message, "Take one of the two out."


SAYINGS: dict[str, Callable[..., Iterator[Saying]]] = {
    "additionalProperties": _unknown_key,
    "required": _missing_key,
    "dependentRequired": _missing_partner,
    "type": _kind,
    "enum": _choice,
    "const": _constant,
    "pattern": _written,
    "maxLength": _written,
    "format": _measure,
    "uniqueItems": _twice,
    "minLength": _bound("is empty", "Take the key out, or write something{example}."),
    "minItems": _bound("has too few entries", "Give {bound} or more{example}."),
    "maxItems": _bound("has too many entries", "Keep {bound} or fewer{example}."),
    "minProperties": _bound("is empty", "Add a key{example}."),
    "maxProperties": _bound("has too many keys", "Keep {bound}{example}."),
    "minimum": _bound("is {value}, less than {bound}", "Write {bound} or more."),
    "exclusiveMinimum": _bound("is {value}; it must be more than {bound}", "Write more than {bound}."),
    "maximum": _bound("is {value}, more than {bound}", "Write {bound} or less."),
}
"Schema keyword -> what its error says."
