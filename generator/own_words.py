"""What a family calls a thing: a shuttle where another machine has a hook, a finger folded out where others unplug."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from functools import cache
from operator import is_
from typing import Any, TypeVar

from generator.records.words import spoken

T = TypeVar("T")

_AN_ID = re.compile(r"[a-z0-9_/+-]+")
"A string of this kind names a record: no sentence is one lower-case word."
_SENTENCE = re.compile(r"[^.;:!?\n]+")


def in_own_words(value: T, calls: Mapping[str, str]) -> T:
    """A record, or records, with every text in the words of `calls`; ids stay as they are.

    >>> in_own_words(("The hook stands still", "hook-gear"), {"hook": "shuttle"})
    ('The shuttle stands still', 'hook-gear')
    """
    own: T = _held(value, calls, [word.lower() for word in calls]) if calls else value
    return own


def _held(value: Any, calls: Mapping[str, str], words: Sequence[str]) -> Any:
    """The value itself where nothing in it is called otherwise; `words` are those of `calls` in small letters."""
    if isinstance(value, str):
        return value if _AN_ID.fullmatch(value) or not any(map(value.lower().__contains__, words)) else told(value, calls)
    if isinstance(value, tuple):
        items = tuple([_held(item, calls, words) for item in value])
        return value if all(map(is_, items, value)) else items
    if isinstance(value, Mapping):
        told_of = {key: _held(item, calls, words) for key, item in value.items()}
        return value if all(map(is_, told_of.values(), value.values())) else told_of
    changed = {}
    for name in _given(value.__class__):
        item = getattr(value, name)
        told_anew = _held(item, calls, words)
        if told_anew is not item:
            changed[name] = told_anew
    return replace(value, **changed) if changed else value


@cache
def _given(shape: type) -> tuple[str, ...]:
    """Names of the fields that a record is made from; none of what is no record."""
    return tuple(f.name for f in fields(shape) if f.init) if is_dataclass(shape) else ()


def told(text: str, calls: Mapping[str, str]) -> str:
    """A text in own words; a sentence that names both, as in "hook or shuttle", stays.

    >>> told("Unplug. Look at the hook.", {"hook": "shuttle", "unplug": "finger folded out"})
    'Finger folded out. Look at the shuttle.'
    >>> told("A hook or a shuttle.", {"hook": "shuttle"})
    'A hook or a shuttle.'
    """
    here = {word: own for word, own in calls.items() if spoken(word).search(text)}
    return _SENTENCE.sub(lambda m: _sentence(m[0], here), text) if here else text


def _sentence(text: str, calls: Mapping[str, str]) -> str:
    for word, own in calls.items():
        if not spoken(own).search(text):
            text = spoken(word).sub(lambda m, own=own: own[0].upper() + own[1:] if m[0][0].isupper() else own, text)  # type: ignore[misc]
    return text
