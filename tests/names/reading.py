"""Words of a text as fingerprints, to know a mark again without writing it down."""

from __future__ import annotations

import re
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

KNOWN = Path(__file__).with_name("known.sha256")
"One fingerprint a line: marks and makers of the trade, and marks that people use for the thing."

_WORD = re.compile(r"[^\W_]+(?:[-'’][^\W_]+)*")
_JOINT = re.compile(r"[-'’]")


def fingerprint(name: str) -> str:
    """The first sixteen hex digits of the SHA-256 of a name.

    >>> fingerprint("abc")
    'ba7816bf8f01cfea'
    """
    return sha256(name.encode()).hexdigest()[:16]


def names_in(line: str) -> Iterator[str]:
    """All that could be a name in a line: words, the parts of hyphenated ones, words beside each other.

    Each in small letters, and as written where it has capitals: some marks are words of the language but for them.

    >>> sorted(names_in("a Bee-line"))
    ['Bee', 'Bee line', 'Bee-line', 'Beeline', 'a', 'a Bee', 'a bee', 'bee', 'bee line', 'bee-line', 'beeline', 'line']
    """
    words = _WORD.findall(line)
    parts = [part for word in words for part in _JOINT.split(word)]
    whole = {form for word in words for form in (word, word.replace("-", ""))}
    pairs = {f"{one} {two}" for one, two in zip(parts, parts[1:], strict=False)}
    found = whole | set(parts) | pairs
    yield from found | {name.lower() for name in found}


def known() -> frozenset[str]:
    """The fingerprints of the list."""
    return frozenset(KNOWN.read_text(encoding="ascii").split())
