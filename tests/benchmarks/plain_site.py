"""The words of a built site as plain Markdown, for a site of MkDocs and the same theme alone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import lxml.html
import yaml

from generator.frame import FEATURES, THEME
from generator.pages.hubs import NAVIGATION

_SPECIAL = re.compile(r"([\\`*_\[\]<>|])")
_HEADINGS = {f"h{level}": "#" * level for level in range(1, 7)}
_PASSED_OVER = ("script", "style", "svg", "button", "input", "select", "textarea", "form", "img")
_INLINE = ("a", "strong", "b", "em", "i", "code", "span", "small", "abbr", "kbd", "sub", "sup", "br", "time", "label", "q", "cite")


def write_plain(site: Path, folder: Path) -> int:
    """Writes `mkdocs.yml` and a Markdown page for every page of a built site, with its links; gives the number of words."""
    count = 0
    for path in sorted(site.rglob("*.html")):
        if path.name == "404.html":
            continue
        article = lxml.html.parse(str(path)).getroot().find(".//article")
        if article is None:  # an old address, which only sends on
            continue
        text = "\n\n".join(_blocks(article)) + "\n"
        target = folder / "docs" / path.relative_to(site).with_suffix(".md")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
        count += len(text.split())
    (folder / "mkdocs.yml").write_text(yaml.safe_dump(_config(folder / "docs"), sort_keys=False), encoding="utf-8")
    return count


def _config(docs: Path) -> dict[str, Any]:
    hubs = [(address.replace(".html", ".md"), title) for section in NAVIGATION.values() for address, title in section]
    return {
        "site_name": "Plain",
        "use_directory_urls": False,
        "theme": {"name": THEME, "font": False, "features": list(FEATURES)},
        "plugins": ["search"],
        "markdown_extensions": ["tables", {"toc": {"permalink": False}}],
        "nav": [{title: address} for address, title in hubs if (docs / address).is_file()],
        "validation": {"nav": {"omitted_files": "ignore"}, "links": {"anchors": "ignore", "not_found": "ignore", "unrecognized_links": "ignore"}},
    }


def _blocks(element: Any) -> Iterator[str]:
    """Paragraphs, lists, headings and tables, in order."""
    run = _text(element.text)
    for child in element:
        if _is_inline(child):
            run += _inline(child) + _text(child.tail)
            continue
        if run.strip():
            yield run.strip()
        yield from _block(child)
        run = _text(child.tail)
    if run.strip():
        yield run.strip()


def _block(element: Any) -> Iterator[str]:
    tag = element.tag
    if not isinstance(tag, str) or tag in _PASSED_OVER:
        return
    if tag in _HEADINGS:
        yield f"{_HEADINGS[tag]} {_whole(element)}"
    elif tag in ("ul", "ol"):
        yield "\n".join(_items(element))
    elif tag == "table":
        yield "\n".join(_rows(element))
    elif tag == "dt":
        yield f"**{_whole(element)}**"
    else:
        yield from _blocks(element)


def _items(element: Any) -> Iterator[str]:
    mark = "1. " if element.tag == "ol" else "- "
    for item in element.iterchildren("li"):
        lines = "\n\n".join(_blocks(item)).splitlines()
        yield "\n".join([mark + (lines[0] if lines else ""), *(f"    {line}" if line else "" for line in lines[1:])])


def _rows(element: Any) -> Iterator[str]:
    rows = [[_whole(cell) for cell in row.iterchildren("td", "th")] for row in element.iter("tr")]
    for number, row in enumerate(rows):
        yield f"| {' | '.join(row)} |"
        if number == 0:
            yield "|" + " --- |" * len(row)


def _whole(element: Any) -> str:
    """All text of an element on one line."""
    return " ".join((_text(element.text) + "".join(_inline(child) + _text(child.tail) for child in element)).split())


def _inline(element: Any) -> str:
    if not isinstance(element.tag, str) or element.tag in _PASSED_OVER:
        return ""
    text = _text(element.text) + "".join(_inline(child) + _text(child.tail) for child in element)
    if element.tag == "a" and element.get("href") and text.strip():
        return f"[{text.strip()}]({element.get('href').replace('.html', '.md')})"
    if element.tag in ("strong", "b") and text.strip():
        return f"**{text.strip()}**"
    return text if element.tag in _INLINE else f" {text} "


def _is_inline(element: Any) -> bool:
    return not isinstance(element.tag, str) or element.tag in _INLINE


def _text(text: str | None) -> str:
    return _SPECIAL.sub(r"\\\1", text or "")
