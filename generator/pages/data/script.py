"""Data as a script that hands it to the page: read from disk as well as from a host."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import count, product
from string import ascii_letters, digits

FOLDER = "assets/handwheel/data"
_BARE = re.compile(r"[A-Za-z_]\w*|0|[1-9]\d{0,8}", re.ASCII)
"A key that JavaScript reads alike without quotes."
_UNSAFE = re.compile("[<\u2028\u2029]")
"What ends a script, or a line of it, though it stands in a text."
_NAME = len("ab")
"Bytes that most names have."
_TAKEN = {"do", "if", "in", "for", "let", "new", "try", "var", "NaN"}
"Words of JavaScript that are as short as our names."
_Value = tuple[tuple[str, ...], tuple[int, ...]]
"What is written around the values that stand in a value, and the numbers of these."


def script(name: str, data: object) -> str:
    """A script that hands data to the page, each value that comes again written once: a page must not change what it is given.

    Safe inside HTML too: no `<` stands in it.

    >>> script("family", {"t": "</script>"})
    'handwheel.give("family",{t:"\\\\u003c/script>"});\\n'
    >>> script("family", {"t": ["lint is packed", "lint is packed"]})
    '{const a="lint is packed";handwheel.give("family",{t:[a,a]});}\\n'
    >>> script("family", {"t": [[0.95, 0.95, 0.9], [0.95, 0.95, 0.9]]})
    '{const a=[0.95,0.95,0.9];handwheel.give("family",{t:[a,a]});}\\n'
    """
    values = _distinct(data)
    names = _named(values)
    said = ",".join(f"{short}={_written(number, values, names)}" for number, short in sorted(names.items()))
    call = f'handwheel.give("{name}",{_written(len(values) - 1, values, names)});'
    return f"{{const {said};{call}}}\n" if said else f"{call}\n"


def _distinct(data: object) -> list[_Value]:
    """Every value once, numbered by its place: what stands in another comes before it, the whole is the last. Linear.

    A family's data is a hundred thousand values, most of which come again.
    """
    numbers: dict[_Value, int] = {}

    def number_of(value: object) -> int:
        inner: Iterable[object] = ()
        if isinstance(value, dict):
            pieces = _around([f"{_key(str(key))}:" for key in value], "{", "}")
            inner = value.values()
        elif isinstance(value, list | tuple):
            pieces, inner = _around([""] * len(value), "[", "]"), value
        else:
            pieces = (_plain(value) if isinstance(value, str) else json.dumps(value),)
        return numbers.setdefault((pieces, tuple(map(number_of, inner))), len(numbers))

    number_of(data)
    return list(numbers)


def _around(keys: Sequence[str], first: str, last: str) -> tuple[str, ...]:
    """What stands before each value and after the last."""
    if not keys:
        return (first + last,)
    return (first + keys[0], *(f",{key}" for key in keys[1:]), last)


def _named(values: Sequence[_Value]) -> dict[int, str]:
    """Names of those that take less room named; the most frequent have the shortest."""
    times = Counter(number for _, within in values for number in within)
    lengths: list[int] = []
    worth: list[int] = []
    for number, (pieces, within) in enumerate(values):
        length = sum(map(len, pieces)) + sum(lengths[inner] for inner in within)
        if (times[number] - 1) * length > len("=,") + _NAME + times[number] * _NAME:
            worth.append(number)
            length = _NAME
        lengths.append(length)
    return dict(zip(sorted(worth, key=lambda number: -times[number]), _names(), strict=False))


def _names() -> Iterator[str]:
    for length in count(1):
        for first, *rest in product(ascii_letters, *[ascii_letters + digits] * (length - 1)):
            name = "".join((first, *rest))
            if name not in _TAKEN:
                yield name


def _written(whole: int, values: Sequence[_Value], names: Mapping[int, str]) -> str:
    """A value with the names of what stands in it."""
    told: list[str] = []

    def write(number: int) -> None:
        (first, *pieces), within = values[number]
        told.append(first)
        for inner, piece in zip(within, pieces, strict=True):
            if inner in names:
                told.append(names[inner])
            else:
                write(inner)
            told.append(piece)

    write(whole)
    return "".join(told)


@lru_cache(maxsize=1024)
def _key(key: str) -> str:
    if key == "__proto__":
        return '["__proto__"]'  # plainly written it would say what the object is like, and no key of it
    return key if _BARE.fullmatch(key) else _plain(key)


def _plain(text: str) -> str:
    written = json.dumps(text, ensure_ascii=False)
    return _UNSAFE.sub(lambda found: f"\\u{ord(found[0]):04x}", written) if _UNSAFE.search(written) else written
