"""Pages that have another address now: what stood at the old one leads to the new one, with or without scripts."""

from __future__ import annotations

import posixpath
from collections.abc import Collection, Iterable, Iterator, Mapping
from html import escape
from typing import Protocol

from generator.bench import Bench
from generator.records.model import Records

_OF_A_FAMILY = ("families", "fasteners", "oil-chart", "settings-order", "job-list", "coverage", "timing", "gauges")
_KINDS = {
    "symptoms": "symptom",
    "assemblies": "assembly",
    "failure-modes": "failure-mode",
    "checks": "check",
    "techniques": "technique",
    **dict.fromkeys(_OF_A_FAMILY, "family"),
}
"Folder of pages -> the kind of record that names a page in it."
_POLICY = '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; script-src \'self\' file:">'
"Such a page loads and runs no more than the one script."
_SCRIPT = "assets/handwheel/js/frame/moved.js"
_WITHIN = {"bench": "symptom", "jobs": "failure-mode"}
"Folder of folders by family -> the kind of record that names a page in one."


class _Named(Protocol):
    """A record that knows what it was called before."""

    @property
    def id(self) -> str: ...
    @property
    def was(self) -> tuple[str, ...]: ...


Renamed = Mapping[tuple[str, str], str]
"Kind and former id -> id of now."


def renamed(records: Records) -> dict[tuple[str, str], str]:
    """What records were called before, by their `was`."""
    groups: dict[str, Mapping[str, _Named]] = {
        "symptom": records.symptoms,
        "family": records.families,
        "assembly": records.assemblies,
        "failure-mode": records.failure_modes,
        "check": records.checks,
        "technique": records.techniques,
    }
    return {(kind, old): r.id for kind, group in groups.items() for r in group.values() for old in r.was}


def moved_files(bench: Bench, published: Iterable[str], titles: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Address and content of a page for each address once published that a renamed record, or another job sheet, stands for.

    `titles`: address -> title of all pages of now.
    """
    names = renamed(bench.library.records)
    for address in published:
        now = "" if address in titles else _now(bench, address, names, titles)
        if now:
            yield address, _leading(address, now, titles[now])


def _now(bench: Bench, address: str, names: Renamed, there: Collection[str]) -> str:
    """Where an address that is gone leads now; empty where nothing says."""
    called = renamed_address(address, names)
    found = called if called in there else _sheet(bench, called)
    return found if found in there else ""


def renamed_address(address: str, names: Renamed) -> str:
    """An address with the former ids in it made those of now.

    >>> renamed_address("jobs/old-40/gear-split.html", {("family", "old-40"): "new-40"})
    'jobs/new-40/gear-split.html'
    """
    folder, *rest = address.removesuffix(".html").split("/")
    kinds = ("family", _WITHIN[folder]) if folder in _WITHIN else (_KINDS.get(folder, ""),)
    called = [names.get((kind, id), id) for kind, id in zip(kinds, rest, strict=False)]
    return "/".join((folder, *called)) + ".html"


def _sheet(bench: Bench, address: str) -> str:
    """The job sheet under which a failure mode's remedy stands now: that of the first mode with the same remedy."""
    folder, _, rest = address.removesuffix(".html").partition("/")
    family, _, mode = rest.partition("/")
    if folder != "jobs" or family not in bench.library.records.families:
        return ""
    view = bench.library.for_family(family)
    remedy = bench.remedies(view).get(mode)
    return f"jobs/{family}/{bench.sheet_of(view, remedy.id)}.html" if remedy else ""


def _leading(address: str, now: str, title: str) -> str:
    """A whole page of its own: it leads on by itself, with scripts to the part that was asked for, and has a link where it may not."""
    way, script = (escape(posixpath.relpath(place, posixpath.dirname(address) or ".")) for place in (now, _SCRIPT))
    said = escape(title)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8">{_POLICY}<title>{said}</title>'
        f'<meta name="viewport" content="width=device-width"><meta http-equiv="refresh" content="0; url={way}">'
        f'<meta name="robots" content="noindex"><script src="{script}" data-to="{way}"></script></head>\n'
        f'<body><h1>{said}</h1><p>This page has another address now: <a href="{way}">{said}</a>.</p></body></html>\n'
    )
