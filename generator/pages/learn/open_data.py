"""One page that lists what the book gives to other programs."""

from __future__ import annotations

from collections.abc import Iterator

from generator.family_view import FamilyView
from generator.pages.data.open_data import MATRIX, ORDERS, OUTCOMES, SCHEMA, TREES, open_address
from generator.pages.data.record_files import INDEX
from generator.pages.data.tables import table_address
from generator.pages.learn.feed import ADDRESS
from generator.pages.maker import Maker
from generator.pages.page import PageText

_COLUMNS = (("Orders of checks", ORDERS), ("Dependency matrix", MATRIX), ("Outcomes", OUTCOMES), ("Fault trees", TREES))
_CHARTS = (("Fasteners", "fasteners"), ("Oil", "oil"), ("Settings", "settings"))


def pages(maker: Maker, dated: bool) -> Iterator[PageText]:
    """One page; `dated` says whether the book has a feed of what changed."""
    yield maker.page(
        "open-data.html",
        "Open data",
        "open-data.html",
        search="open data json csv download table dot graphviz",
        wide=True,
        heads=[title for title, _ in (*_COLUMNS, *_CHARTS)],
        rows=[{"title": view.name, "files": list(_files(view))} for view in maker.library.views],
        schema=SCHEMA,
        records_index=INDEX,
        feed=ADDRESS if dated else "",
    )


def _files(view: FamilyView) -> Iterator[dict[str, str]]:
    for heading, what in _COLUMNS:
        yield _file(open_address(what, view.id), heading, view)
    for heading, chart in _CHARTS:
        yield _file(table_address(chart, view.id), heading, view)


def _file(address: str, heading: str, view: FamilyView) -> dict[str, str]:
    kind = address.rpartition(".")[2].upper()
    return {"href": address, "kind": kind, "label": f"{heading}, {view.name}, {kind}"}
