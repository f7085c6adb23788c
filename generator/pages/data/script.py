"""Data as a script that hands it to the page: read from disk as well as from a host."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from itertools import count, product
from string import ascii_letters, digits

FOLDER = "assets/handwheel/data"
_BARE = re.compile(r"[A-Za-z_]\w*|0|[1-9]\d{0,8}", re.ASCII)
"A key that JavaScript reads alike without quotes."
_UNSAFE = re.compile("[<\u2028\u2029]")
"What ends a script, or a line of it, though it stands in a text."
_SEVERAL = 2
"Times from which on a text is written once and named."
_TAKEN = {"do", "if", "in", "for", "let", "new", "try", "var", "NaN"}
"Words of JavaScript that are as short as our names."


def script(name: str, data: object) -> str:
    """A script that hands data to the page, each text that comes again written once. Safe inside HTML too: no `<` stands in it.

    >>> script("family", {"t": "</script>"})
    'handwheel.give("family",{t:"\\\\u003c/script>"});\\n'
    >>> script("family", {"t": ["lint is packed", "lint is packed"]})
    '{const a="lint is packed";handwheel.give("family",{t:[a,a]});}\\n'
    """
    named = dict(zip(_worth_a_name(Counter(_texts(data))), _names(), strict=False))
    said = ",".join(f"{short}={_plain(text)}" for text, short in named.items())
    call = f'handwheel.give("{name}",{_written(data, named)});'
    return f"{{const {said};{call}}}\n" if said else f"{call}\n"


def _texts(data: object) -> Iterator[str]:
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from _texts(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from _texts(value)


def _worth_a_name(counted: Counter[str]) -> list[str]:
    """Texts that take less room named, the most frequent first, for they get the shortest names."""
    long = len('a="",') + len("abc")
    return [text for text, times in counted.most_common() if times >= _SEVERAL and (times - 1) * len(text) > long + times]


def _names() -> Iterator[str]:
    for length in count(1):
        for first, *rest in product(ascii_letters, *[ascii_letters + digits] * (length - 1)):
            name = "".join((first, *rest))
            if name not in _TAKEN:
                yield name


def _written(data: object, named: dict[str, str]) -> str:
    told: list[str] = []
    _write(data, named, told)
    return "".join(told)


def _write(data: object, named: dict[str, str], told: list[str]) -> None:
    """Piece by piece into one list: a family's data is a hundred thousand values."""
    if isinstance(data, str):
        told.append(named.get(data) or _plain(data))
    elif isinstance(data, dict):
        comma = "{"
        for key, value in data.items():
            told += (comma, _key(str(key)), ":")
            _write(value, named, told)
            comma = ","
        told.append("}" if data else "{}")
    elif isinstance(data, list | tuple):
        comma = "["
        for value in data:
            told.append(comma)
            _write(value, named, told)
            comma = ","
        told.append("]" if data else "[]")
    else:
        told.append(json.dumps(data))


@lru_cache(maxsize=1024)
def _key(key: str) -> str:
    if key == "__proto__":
        return '["__proto__"]'  # plainly written it would say what the object is like, and no key of it
    return key if _BARE.fullmatch(key) else _plain(key)


def _plain(text: str) -> str:
    written = json.dumps(text, ensure_ascii=False)
    return _UNSAFE.sub(lambda found: f"\\u{ord(found[0]):04x}", written) if _UNSAFE.search(written) else written
