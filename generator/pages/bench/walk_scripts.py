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

WALK_SCRIPTS = tuple(f"assets/handwheel/js/bench/{name}.js" for name in _NAMES)
"Addresses from the site's root."
