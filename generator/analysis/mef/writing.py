"""A fault tree as a document of the exchange format."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from generator.analysis.fault_tree.structure import checked, structure
from generator.analysis.mef.names import FORMULAS, Names
from generator.analysis.tree import Event, Gate, event_ids, gates_upward

_NOT_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>'
_ESCAPES = {"\r": "&#13;"}
"A bare carriage return would be read back as a line feed."


def to_mef(top: Gate, q: Mapping[str, float]) -> str:
    """The tree as Open-PSA XML, with the probabilities of its events by id.

    `from_mef` reads the same tree back. Where an id is no name of the format, the name is near to
    it and an attribute `id` carries it; titles are labels, and `transfer` is an attribute. Gates
    stand from the top down, events in order of first appearance.

    Raises ValueError as `top_probability` does, for an event with two titles, and for a character
    that XML cannot hold.

    >>> print(to_mef(Gate("top", "", "any", (Event("a", "Lint"),)), {"a": 0.25}), end="")
    <?xml version="1.0" encoding="UTF-8"?>
    <opsa-mef>
      <define-fault-tree name="top-tree">
        <define-gate name="top">
          <or>
            <basic-event name="a"/>
          </or>
        </define-gate>
        <define-basic-event name="a">
          <label>Lint</label>
          <float value="0.25"/>
        </define-basic-event>
      </define-fault-tree>
    </opsa-mef>
    """
    structure(top)
    q = checked(event_ids(top), q)
    draft = _drafted(top)
    definitions = [_gate(gate, draft) for gate in reversed(draft.gates)]
    definitions += [_event(event, draft, q[event]) for event in draft.events]
    tree = _element("define-fault-tree", {"name": draft.name}, definitions)
    return "\n".join([_DECLARATION, *_element("opsa-mef", {}, [tree]), ""])


@dataclass(frozen=True, slots=True)
class _Draft:
    """A tree with its names; gates that are equal, with all under them, are one gate."""

    name: str
    gates: tuple[Gate, ...]
    "A gate stands after those under it."
    same: Mapping[int, int]
    "From each gate object to the place of its gate."
    gate_names: tuple[str, ...]
    events: Mapping[str, Event]
    event_names: Mapping[str, str]


def _drafted(top: Gate) -> _Draft:
    gates, same = _distinct(top)
    events = _events(gates)
    names = Names()
    downward = [names.name(gate.id, "gate") for gate in reversed(gates)]
    event_names = {event: names.name(event, "event") for event in event_ids(top)}
    ordered = {event: events[event] for event in event_names}
    tree = names.name(f"{top.id}-tree", "tree")
    return _Draft(tree, gates, same, tuple(reversed(downward)), ordered, event_names)


def _distinct(top: Gate) -> tuple[tuple[Gate, ...], dict[int, int]]:
    """The gates that differ. Compared level by level: comparing whole subtrees would recurse."""
    places: dict[tuple[object, ...], int] = {}
    gates: list[Gate] = []
    same: dict[int, int] = {}
    for gate in gates_upward(top):
        inputs = tuple(same[id(n)] if isinstance(n, Gate) else n for n in gate.inputs)
        content = (gate.id, gate.title, gate.kind, gate.k, gate.transfer, inputs)
        if content not in places:
            places[content] = len(gates)
            gates.append(gate)
        same[id(gate)] = places[content]
    return tuple(gates), same


def _events(gates: tuple[Gate, ...]) -> dict[str, Event]:
    """The basic events by id. Raises ValueError for an event with two titles."""
    found: dict[str, Event] = {}
    for event in (n for gate in gates for n in gate.inputs if isinstance(n, Event)):
        if found.setdefault(event.id, event) != event:
            raise ValueError(f"Event {event.id!r} has two titles.")
    return found


def _gate(gate: Gate, draft: _Draft) -> list[str]:
    name = draft.gate_names[draft.same[id(gate)]]
    minimum = {"min": str(gate.k)} if gate.kind == "at_least" else {}
    inputs = [_reference(node, draft) for node in gate.inputs]
    formula = _element(FORMULAS[gate.kind], minimum, inputs)
    about = _about(name, gate.id, gate.title, gate.transfer)
    return _element("define-gate", {"name": name}, [*about, formula])


def _event(event: str, draft: _Draft, probability: float) -> list[str]:
    name = draft.event_names[event]
    about = _about(name, event, draft.events[event].title, "")
    value = _element("float", {"value": repr(probability)}, [])
    return _element("define-basic-event", {"name": name}, [*about, value])


def _reference(node: Gate | Event, draft: _Draft) -> list[str]:
    if isinstance(node, Event):
        return _element("basic-event", {"name": draft.event_names[node.id]}, [])
    return _element("gate", {"name": draft.gate_names[draft.same[id(node)]]}, [])


def _about(name: str, identity: str, title: str, transfer: str) -> list[list[str]]:
    """The label, and as attributes what the format has no place of its own for."""
    said = {"id": "" if identity == name else identity, "transfer": transfer}
    attributes = [_element("attribute", {"name": n, "value": v}, []) for n, v in said.items() if v]
    label = [f"<label>{escape(_legible(title), _ESCAPES)}</label>"]
    extra = [_element("attributes", {}, attributes)] if attributes else []
    return [label, *extra] if title else extra


def _element(tag: str, attributes: Mapping[str, str], inner: list[list[str]]) -> list[str]:
    """The lines of an element, those within it indented."""
    start = "".join([tag, *(f" {n}={quoteattr(_legible(v))}" for n, v in attributes.items())])
    if not inner:
        return [f"<{start}/>"]
    return [f"<{start}>", *(f"  {line}" for lines in inner for line in lines), f"</{tag}>"]


def _legible(text: str) -> str:
    """The text itself. Raises ValueError for a character that XML cannot hold."""
    found = _NOT_IN_XML.search(text)
    if found:
        raise ValueError(f"{text!r} holds {found[0]!r}, which no XML document can hold.")
    return text
