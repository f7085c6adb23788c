"""Where each record's page stands, and how one page links to another."""

from __future__ import annotations

import posixpath
from functools import lru_cache

_FOLDERS = {
    "symptom": "symptoms",
    "family": "families",
    "assembly": "assemblies",
    "failure-mode": "failure-modes",
    "check": "checks",
    "technique": "techniques",
}
_ON_A_LIST = {
    "caution": "cautions.html",
    "tool": "tools.html",
    "term": "glossary.html",
    "source": "sources.html",
}


def place(kind: str, record_id: str, within: str = "") -> str:
    """The address of a record from the site's root.

    `within` is the family of a bench page, job sheet or chart, or the assembly of a part or setting.

    >>> place("failure-mode", "hook-gear-cracked")
    'failure-modes/hook-gear-cracked.html'
    >>> place("bench", "no-feed", within="tessaly-40")
    'bench/tessaly-40/no-feed.html'
    >>> place("part", "hook-gear", within="rotary-hook-geared")
    'assemblies/rotary-hook-geared.html#hook-gear'
    """
    if kind in _FOLDERS:
        return f"{_FOLDERS[kind]}/{record_id}.html"
    if kind in _ON_A_LIST:
        return f"{_ON_A_LIST[kind]}#{record_id}"
    if kind in ("part", "setting", "oil"):
        return f"assemblies/{within}.html#{record_id}"
    if kind in ("bench", "jobs"):
        return f"{kind}/{within}/{record_id}.html"
    if kind in ("fasteners", "oil-chart", "settings-order", "job-list", "timing", "gauges"):
        return f"{kind}/{record_id}.html"
    raise ValueError(f"No page holds a {kind}.")


def relative(address: str, page: str) -> str:
    """The address as page `page` links to it; both from the site's root.

    >>> relative("checks/x.html#how", "bench/tessaly-40/no-feed.html")
    '../../checks/x.html#how'
    >>> relative("bench/a/b.html#walk", "bench/a/b.html")
    '#walk'
    """
    path, mark, anchor = address.partition("#")
    if path == page and mark:
        return "#" + anchor
    return _way(path, posixpath.dirname(page) or ".") + mark + anchor


@lru_cache(maxsize=65536)
def _way(path: str, folder: str) -> str:
    """Pages of one folder link to much the same places."""
    return posixpath.relpath(path, folder)
