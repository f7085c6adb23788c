"""Pages of the built site, read once for all that is asked of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from lxml.etree import _Element
from playwright.sync_api import Browser

from tests.tags import read

_LINKS = {"href": ("a", "link", "image"), "src": ("script", "img", "iframe", "source")}


@dataclass(frozen=True)
class Page:
    """The links and anchors of one page."""

    links: tuple[tuple[str, str], ...]
    "(tag, address) of everything that is followed or loaded, each once."
    anchors: frozenset[str]
    faults: tuple[str, ...]
    "Tags unclosed or misplaced, ids that stand twice."


@cache
def page(path: Path) -> Page:
    """The page at a path, read once."""
    root, faults = read(path.read_text(encoding="utf-8"))
    return Page(tuple(dict.fromkeys(_links(root))), frozenset(_anchors(root)), tuple(faults))


def _links(root: _Element) -> Iterator[tuple[str, str]]:
    for name, tags in _LINKS.items():
        for element in root.iter(*tags):
            if (address := element.get(name)) is not None:
                yield element.tag, address


def _anchors(root: _Element) -> Iterator[str]:
    for element in root.iter("*"):
        for name in ("id", "name"):
            value = element.get(name)
            if value is not None and not (name == "name" and element.tag == "meta"):
                yield value


def framed(browser: Browser, path: Path) -> str:
    """The page as it stands once its frame is laid, from disk."""
    tab = browser.new_page()
    tab.goto(path.as_uri())
    html = tab.content()
    tab.close()
    return html


def pages(site: Path) -> list[Path]:
    """Every page of the site."""
    return sorted(site.rglob("*.html"))
