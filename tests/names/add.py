"""Adds names to the list of marks and makers, by their fingerprints alone.

    python -m tests.names.add

Type one name a line and end with Ctrl-D. In small letters a name is found however it is written; with a capital only
as typed, for marks that are words of the language. Nothing is kept of what is typed but the fingerprint.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable

from tests.names.reading import KNOWN, fingerprint, known


def with_names(fingerprints: frozenset[str], names: Iterable[str]) -> str:
    """The text of the list with these names in it, sorted so that its order tells nothing."""
    typed = {fingerprint(" ".join(name.split())) for name in names if name.strip()}
    return "".join(f"{mark}\n" for mark in sorted(fingerprints | typed))


if __name__ == "__main__":
    KNOWN.write_text(with_names(known(), sys.stdin), encoding="ascii")
