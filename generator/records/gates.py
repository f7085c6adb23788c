"""The gates of a fault tree as data, whether or not they are well formed."""

from __future__ import annotations

from collections.abc import Iterator

from generator.records.node import Route

INPUTS = {"any": "any", "all": "all", "at_least": "of"}
"Kind of gate -> the key of its inputs."


def gates(symptom: object) -> Iterator[tuple[Route, dict[str, object]]]:
    """Every gate of a symptom's tree with its route, from the top down."""
    tree = symptom.get("tree") if isinstance(symptom, dict) else None
    stack: list[tuple[Route, object]] = [(("tree",), tree)]
    while stack:
        route, node = stack.pop()
        if isinstance(node, dict) and "see" not in node:
            yield route, node
            stack += reversed(list(_inputs(route, node)))


def _inputs(route: Route, gate: dict[str, object]) -> Iterator[tuple[Route, object]]:
    for key in INPUTS.values():
        inputs = gate.get(key)
        for place, node in enumerate(inputs if isinstance(inputs, list) else ()):
            yield (*route, key, place), node


def kinds_of(gate: dict[str, object]) -> list[str]:
    """Which of any, all and at_least a gate gives, by itself or by its inputs; a good one gives one."""
    return [kind for kind, inputs in INPUTS.items() if kind in gate or inputs in gate]


def bad_gates(symptom: object) -> Iterator[tuple[Route, dict[str, object], list[str]]]:
    """Gates with none or more than one of any, all and at_least: route, gate, and which it gives."""
    for route, gate in gates(symptom):
        given = kinds_of(gate)
        if len(given) != 1:
            yield route, gate, given
