"""Pages of the built site, read with the standard library's own parser."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

_LINKS = {"href": ("a", "link", "image"), "src": ("script", "img", "iframe", "source")}


@dataclass
class Page(HTMLParser):
    """The links and anchors of one page."""

    path: Path
    links: list[tuple[str, str]] = field(default_factory=list)
    "(tag, address) of everything that is followed or loaded."
    anchors: set[str] = field(default_factory=set)
    repeated: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.feed(self.path.read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if value is None:
                continue
            if name in ("id", "name") and tag != "meta":
                if name == "id" and value in self.anchors:
                    self.repeated.add(value)
                self.anchors.add(value)
            if tag in _LINKS.get(name, ()):
                self.links.append((tag, value))


@cache
def page(path: Path) -> Page:
    """The page at a path, parsed once."""
    return Page(path)


def pages(site: Path) -> list[Path]:
    """Every page of the site."""
    return sorted(site.rglob("*.html"))
