"""Invented names, none of them a mark that the list of marks knows."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from tests.names.reading import fingerprint, known

_BEGIN = ("br", "c", "d", "dr", "f", "g", "gl", "h", "k", "l", "m", "n", "p", "qu", "r", "s", "t", "thr", "v", "w", "z")
_MIDDLE = ("a", "e", "i", "o", "u", "ae", "ei", "ou")
_BETWEEN = ("dr", "ff", "gl", "lm", "mb", "nd", "rr", "sk", "st", "th", "v", "zz")
_END = ("ck", "ld", "m", "n", "nt", "rn", "sk", "th", "x")


def names(chance: Random) -> Iterator[str]:
    """Names of two syllables, without end and none twice as long as there are any.

    >>> from itertools import islice
    >>> made = list(islice(names(Random(1)), 500))
    >>> len(set(made)), all(name.istitle() for name in made)
    (500, True)
    """
    marks, given = known(), set[str]()
    while True:
        rows = (_BEGIN, _MIDDLE, _BETWEEN, _MIDDLE, _END)
        name = "".join(chance.choice(row) for row in rows)
        if name not in given and fingerprint(name) not in marks:
            given.add(name)
            yield name.capitalize()
