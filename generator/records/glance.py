"""Files seen at a glance to be sound: plain YAML that the schema has nothing against, read without its places.

Nearly every file of a book is. Any other is read with the place of each value, so that its faults can be told.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import yaml

from generator.records.compose import DEEPEST, FAST, MOST_VALUES
from generator.records.document import text_of
from generator.records.gates import bad_gates
from generator.records.kinds import Kind
from generator.records.plain_fit import plainly_fits
from generator.records.scalar import resolve
from generator.records.sound_files import SoundFile

_MOST_EVENTS = MOST_VALUES // 2
"A file with more than these is read the other way, which says where there is too much of it."


def at_a_glance(kind: Kind, path: Path, raw: bytes) -> SoundFile | None:
    """A file whose bytes are plainly a sound record of the kind, or a sound list of them; None says nothing of it."""
    text = text_of(raw, path)
    if not isinstance(text, str):
        return None
    try:
        data = _plain(text)
    except (_Odd, yaml.YAMLError, ValueError):
        return None
    sound = plainly_fits(kind.schema)(data) and builds(kind, data)
    return SoundFile(path, raw, data) if sound else None


def builds(kind: Kind, data: object) -> bool:
    """Whether a record that its schema has nothing against can be built: each gate of a tree is of one kind."""
    return kind.name != "symptom" or not any(bad_gates(data))


class _Odd(Exception):
    """Something that a plain record has none of, or too much of."""


def _plain(text: str) -> object:
    """The one value in a YAML text as data. Raises _Odd for tags, anchors and keys that are no words or stand twice."""
    loader = FAST(text)
    try:
        return _read(loader.get_event)
    finally:
        loader.dispose()


def _read(following: Callable[[], Any]) -> object:
    """In one loop, since it is gone through for each value of a book."""
    top: list[Any] = []
    above: list[Any] = []
    here: Any = top
    key: str | None = None
    for _ in range(_MOST_EVENTS):
        event = following()
        made = type(event)
        if made is yaml.ScalarEvent:
            if event.anchor is not None or event.tag is not None:
                raise _Odd
            if key is None and type(here) is dict:
                key = event.value
                if key in here:
                    raise _Odd
                continue
            value = resolve(event.value) if event.implicit[0] else event.value
        elif made is yaml.MappingStartEvent or made is yaml.SequenceStartEvent:
            if event.anchor is not None or event.tag is not None or len(above) == DEEPEST // 2:
                raise _Odd
            value = {} if made is yaml.MappingStartEvent else []
        elif made is yaml.MappingEndEvent or made is yaml.SequenceEndEvent:
            here = above.pop()
            continue
        elif made is yaml.StreamEndEvent and len(top) == 1:
            return top[0]
        elif made is yaml.AliasEvent or made is yaml.StreamEndEvent:
            raise _Odd
        else:
            continue
        if type(here) is list:
            here.append(value)
        elif key is None:
            raise _Odd
        else:
            here[key], key = value, None
        if made is not yaml.ScalarEvent:
            above.append(here)
            here = value
    raise _Odd
