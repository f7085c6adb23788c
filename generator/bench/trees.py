"""A symptom's tree as analysis takes it: titles filled in, transfers followed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.analysis.folding import Folded, fold
from generator.analysis.tree import Event, Gate, Node
from generator.family_view import FamilyView
from generator.library import Library
from generator.own_words import told
from generator.records.model import Symptom, TreeGate, TreeNode, TreeTransfer

_KIND_WORDS = {"any": "any of these", "all": "all of these together", "at_least": "several of these"}


def full_tree(library: Library, symptom: Symptom) -> Gate:
    """The tree as written, for every family at once. The top gate bears the symptom's id and title."""
    return _gate(library, symptom.tree, symptom.id, symptom.id, symptom.title)


def family_tree(library: Library, view: FamilyView, symptom: Symptom) -> Folded:
    """The tree cut down to what one family has, in its own words, and what was left out and why."""
    folded = fold(full_tree(library, symptom), view.not_here.get)
    return replace(folded, tree=folded.tree and _told(folded.tree, view.calls))


def _told(gate: Gate, calls: Mapping[str, str]) -> Gate:
    """A gate and all below it, their titles as the family calls things."""
    below = (
        _told(node, calls) if isinstance(node, Gate) else replace(node, title=told(node.title, calls))
        for node in gate.inputs
    )
    return replace(gate, title=told(gate.title, calls), inputs=tuple(below))


def _gate(
    library: Library, gate: TreeGate, owner: str, name: str, title: str, transfer: str = ""
) -> Gate:
    return Gate(
        id=name,
        title=title,
        kind=gate.kind,
        inputs=tuple(
            _node(library, node, owner, f"{name}.{number}") for number, node in enumerate(gate.inputs, 1)
        ),
        k=gate.k if gate.kind == "at_least" else 0,
        transfer=transfer,
    )


def _node(library: Library, node: TreeNode, owner: str, fallback: str) -> Node:
    if isinstance(node, TreeTransfer):
        shared = library.gates[node.see]
        home = node.see.partition("/")[0]
        return _gate(library, shared, home, node.see, _title(shared), transfer=node.see)
    if isinstance(node, TreeGate):
        name = f"{owner}/{node.id}" if node.id else fallback
        return _gate(library, node, owner, name, _title(node))
    return Event(node.id, library.records.failure_modes[node.id].title)


def _title(gate: TreeGate) -> str:
    if gate.kind == "at_least" and not gate.title:
        return f"at least {gate.k} of these"
    return gate.title or _KIND_WORDS[gate.kind]
