"""The hub of the hand-written guides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from generator.pages.maker import Maker
from generator.pages.page import PageText


def pages(maker: Maker, folders: Sequence[Path]) -> Iterator[PageText]:
    """One page that leads to every guide in the content folders."""
    guides = {p.stem: p for folder in folders for p in sorted((folder / "guides").glob("*.md"))}
    entries = [{"href": f"guides/{name}.html", "title": _title(path)} for name, path in guides.items()]
    yield maker.page("guides.html", "Guides", "guides.html", guides=sorted(entries, key=lambda e: e["title"]))


def _title(path: Path) -> str:
    """The first heading of a guide."""
    lines = path.read_text(encoding="utf-8").splitlines()
    return next((line[2:].strip() for line in lines if line.startswith("# ")), path.stem)
