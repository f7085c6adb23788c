"""Every address that the book once published, kept in a file among its records: none of them may come to nothing."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

NAME = "addresses.txt"
"In the first content folder."
_HEAD = "# Every page once published, a folder a line. `python -m tests.tools.addresses site` adds those of a built site."


def published(content: Path) -> tuple[str, ...]:
    """The addresses in the file of a content folder; none where there is no file."""
    path = content / NAME
    return read_addresses(path.read_text(encoding="utf-8")) if path.is_file() else ()


def read_addresses(text: str) -> tuple[str, ...]:
    """The addresses that a text lists.

    >>> read_addresses("# All.\\n: index tools\\nbench/tessaly-40: no-feed\\n")
    ('index.html', 'tools.html', 'bench/tessaly-40/no-feed.html')
    """
    lines = (line.partition(":") for line in text.splitlines() if line and not line.startswith("#"))
    return tuple(f"{folder}{'/' * bool(folder)}{name}.html" for folder, _, names in lines for name in names.split())


def as_text(addresses: Iterable[str]) -> str:
    """The same addresses as a text: a folder a line, all in order, so that two changes seldom meet."""
    folders: dict[str, list[str]] = {}
    for address in sorted(set(addresses)):
        folder, _, name = address.removesuffix(".html").rpartition("/")
        folders.setdefault(folder, []).append(name)
    return "\n".join((_HEAD, *(f"{folder}: {' '.join(names)}" for folder, names in sorted(folders.items())), ""))
