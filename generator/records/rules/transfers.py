"""Which gates and failure modes stand below each named gate, transfers followed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from generator.graph import reached
from generator.records.gates import gates
from generator.records.node import Route
from generator.records.read import Record
from generator.records.references import Reference

Labels = Mapping[Route, str]
"Route of a named gate, or of the tree itself -> symptom/gate, or the symptom's id."


@dataclass(slots=True)
class TransferGraph:
    """Named gates as symptom/gate; a whole tree goes by the symptom's id."""

    below: dict[str, set[str]] = field(default_factory=dict)
    "Gate -> the nearest named gates below it, transfers followed."
    modes: dict[str, set[str]] = field(default_factory=dict)
    "Gate -> failure modes below it that stand below no nearer named gate."
    sees: dict[tuple[str, str], Reference] = field(default_factory=dict)
    "Gate and the gate that it transfers to -> that `see`."
    labels: set[str] = field(default_factory=set)
    "Every named gate."
    _events: dict[str, frozenset[str]] = field(default_factory=dict)
    "What was asked for before: the graph is whole by then."

    def events(self, gate: str) -> frozenset[str]:
        """Every failure mode below a gate or in a whole tree."""
        if gate not in self._events:
            seen = reached([gate], lambda here: self.below.get(here, ()))
            self._events[gate] = frozenset().union(*(self.modes.get(here, ()) for here in seen))
        return self._events[gate]


def transfer_graph(references: Iterable[Reference], symptoms: Iterable[Record]) -> TransferGraph:
    """The graph of all trees that could be read, sound or not."""
    graph = TransferGraph()
    labels = {symptom.id: _labels(symptom) for symptom in symptoms}
    for id, named in labels.items():
        graph.labels.update(named.values())
        for route, label in named.items():
            graph.below.setdefault(_owner(id, named, route), set()).add(label)
    for reference in references:
        if reference.record.kind == "symptom" and reference.route[0] == "tree":
            id = reference.record.id
            _add(graph, _owner(id, labels[id], reference.route), reference)
    return graph


def _labels(symptom: Record) -> Labels:
    return {
        route: f"{symptom.id}/{gate['id']}"
        for route, gate in gates(symptom.data)
        if isinstance(gate.get("id"), str)
    }


def _owner(symptom: str, labels: Labels, route: Route) -> str:
    """The nearest named gate above a route; the whole tree where there is none."""
    above = (route[:length] for length in range(len(route) - 1, 0, -1))
    return next((labels[r] for r in above if r in labels), symptom)


def _add(graph: TransferGraph, owner: str, reference: Reference) -> None:
    if reference.target == "gate" and "/" in reference.id:
        graph.below.setdefault(owner, set()).add(reference.id)
        graph.sees[owner, reference.id] = reference
    elif reference.target == "failure-mode":
        graph.modes.setdefault(owner, set()).add(reference.id)
