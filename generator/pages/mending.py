"""Where a page's words come from, and the two ways to mend them on the forge where the book stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import quote, urlencode

from generator.records.kinds import BY_PLACE

_FORM = "wrong-or-missing.yml"
"The form of the forge folder for what a page says wrong."
_WITHIN = {"bench": "symptoms", "jobs": "failure-modes"}
"Folder of pages within a family -> folder of the records that they tell of."
_OF_A_FAMILY = ("oil-chart", "settings-order", "job-list", "coverage", "timing")


@dataclass(frozen=True, slots=True)
class Mending:
    """Links under a page."""

    wrong: str
    "Opens the form, the page's address filled in."
    mend: str
    "Opens the record for editing; empty for a page that no single file makes."


def record_behind(address: str) -> str:
    """The file below the content folder that a page is made from; empty where there is no one file.

    >>> record_behind("bench/tessaly-40/no-feed.html"), record_behind("tools.html"), record_behind("index.html")
    ('symptoms/no-feed.yaml', 'tools.yaml', '')
    """
    folder, _, name = address.removesuffix(".html").rpartition("/")
    top = folder.partition("/")[0]
    if not folder:
        return f"{name}.yaml" if f"{name}.yaml" in BY_PLACE else ""
    if folder in _OF_A_FAMILY:
        return f"families/{name}.yaml"
    if folder in BY_PLACE:
        return f"{folder}/{name}.yaml"
    return f"{_WITHIN[top]}/{name}.yaml" if top in _WITHIN else ""


def mending(repository: str, edit: str, address: str, source: str, is_there: Callable[[str], bool]) -> Mending:
    """The links of a page; `edit` is the way from the repository's address to the content folder for editing.

    `source` is the page's own file where it was written by hand, and `is_there` says which files the folder holds.
    """
    file = source if is_there(source) else record_behind(address)
    asked = urlencode({"template": _FORM, "where": address}, quote_via=quote)
    way = f"{repository.rstrip('/')}/{edit.strip('/')}/{quote(file)}"
    return Mending(f"{repository.rstrip('/')}/issues/new?{asked}", way if file and is_there(file) else "")
