"""The page for a machine that is not in the book: say what it has, and every complaint works for it."""

from __future__ import annotations

import json
from collections.abc import Iterator

from generator.pages.bench.walk_scripts import WALK
from generator.pages.data.mechanisms import ADDRESS as MECHANISMS
from generator.pages.maker import Maker
from generator.pages.page import PageText
from generator.wording.grouping import grouped

_NAMES = ("own-words", "family", "fault-tree", "remedies", "complaint", "record", "form", "complaints", "kept", "page")
_SCRIPTS = tuple(f"assets/handwheel/js/not_listed/{name}.js" for name in _NAMES)


def pages(maker: Maker) -> Iterator[PageText]:
    """One page; what it shows is worked out in the browser."""
    families = sorted(maker.records.families.values(), key=lambda f: (f.title, f.id))
    groups = grouped(maker.records.symptoms.values())
    yield maker.page(
        "not-listed.html",
        "My machine is not listed",
        "not-listed.html",
        search="My machine is not listed; another make, another model; choose its mechanisms",
        description="Choose a machine's mechanisms and work through its complaints, though it is in no list.",
        wide=True,
        scripts=(MECHANISMS, WALK, *_SCRIPTS),
        families=families,
        groups=json.dumps([{"title": g.title, "symptoms": [s.id for s in g.symptoms]} for g in groups]),
    )
