"""Fault trees as records write them: their gates by name, and whether they can come about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from generator.records.model import Symptom, TreeEvent, TreeGate, TreeNode, TreeTransfer

Gates = Mapping[str, TreeGate]
'"symptom/gate" -> the gate.'


def gates_of(gate: TreeGate) -> Iterator[TreeGate]:
    """The gate and every gate below it in the same tree."""
    yield gate
    for node in gate.inputs:
        if isinstance(node, TreeGate):
            yield from gates_of(node)


def named_gates(symptoms: Iterable[Symptom]) -> dict[str, TreeGate]:
    """Every gate that has an id, as "symptom/gate"."""
    return {f"{s.id}/{gate.id}": gate for s in symptoms for gate in gates_of(s.tree) if gate.id}


def can_occur(
    node: TreeNode, can_have: Callable[[str], bool], gates: Gates, seen: frozenset[str] = frozenset()
) -> bool:
    """Whether the failure modes that a machine can have are enough to bring a node about.

    A transfer to a gate that is not there counts as possible and one that leads back up as impossible,
    so that content with faults can be asked too.
    """
    if isinstance(node, TreeEvent):
        return can_have(node.id)
    if isinstance(node, TreeTransfer):
        if node.see not in gates:
            return True
        return node.see not in seen and can_occur(gates[node.see], can_have, gates, seen | {node.see})
    able = sum(can_occur(below, can_have, gates, seen) for below in node.inputs)
    return able >= min(node.k, len(node.inputs))
