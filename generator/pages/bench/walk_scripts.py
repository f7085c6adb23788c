"""The scripts of the guided walk, each after those that it builds on."""

from __future__ import annotations

_NAMES = (
    "graph",
    "machine",
    "minutes",
    "case",
    "doubt",
    "diagnosis",
    "next-step",
    "journey",
    "log",
    "words",
    "step-view",
    "causes-view",
    "history-view",
    "finished",
    "walk",
)

WALK_PARTS = tuple(f"js/bench/{name}.js" for name in _NAMES)
"Addresses in the folder of assets."
WALK = "assets/handwheel/js/walk.js"
"Address of them all in one, from the site's root: a page need not name each."
