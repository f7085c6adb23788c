"""The planner: several remedies on one machine as one visit to the bench."""

from __future__ import annotations

import json
from collections.abc import Iterator

from generator.pages.maker import Maker
from generator.pages.page import PageText

ADDRESS = "planner.html"
_NAMES = (
    "order", "path", "way-out", "settings", "ways", "joints", "steps", "plan",
    "step-words", "money", "sheet", "picks", "offers", "page",
)  # fmt: skip
_SCRIPTS = (
    *(f"assets/handwheel/js/bench/{name}.js" for name in ("graph", "machine", "minutes", "words")),
    *(f"assets/handwheel/js/planner/{name}.js" for name in _NAMES),
)


def pages(maker: Maker) -> Iterator[PageText]:
    """One page, if there is any family to plan for; the plan itself is worked out in the browser."""
    families = sorted(maker.records.families.values(), key=lambda f: (f.title, f.id))
    if not families:
        return
    yield maker.page(
        ADDRESS,
        "Planner",
        "planner.html",
        description="Several jobs on one machine as one visit: way in, work, way out, settings, minutes, price.",
        search="planner plan several jobs remedies one visit estimate quote minutes price way in settings",
        wide=True,
        scripts=_SCRIPTS,
        families=families,
        alike=_alike(maker),
    )


def _alike(maker: Maker) -> str:
    """The glossary's names for one thing, list by list, as JSON."""
    terms = sorted(maker.records.glossary.values(), key=lambda t: t.id)
    return json.dumps([[name.lower() for name in (t.title, *t.also)] for t in terms if t.also], ensure_ascii=False)
