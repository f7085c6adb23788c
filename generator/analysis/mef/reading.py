"""A document of the exchange format as a fault tree."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from generator.analysis.fault_tree.structure import structure
from generator.analysis.mef.document import attribute, parsed
from generator.analysis.tree import Event, Gate, GateKind, Node

_KINDS: dict[str, GateKind] = {"or": "any", "and": "all", "atleast": "at_least"}
_REFERENCES = ("gate", "basic-event", "event")
_ABOUT = ("label", "attributes")


def from_mef(text: str) -> tuple[Gate, dict[str, float]]:
    """The fault tree in an Open-PSA document, and the probabilities of its events by id.

    Read are gates with `and`, `or`, `atleast` or formulas of these within one another, and basic
    events with a `float` or none. The top event is the one gate that no other refers to.

    Raises ValueError, in one sentence, for malformed XML, a document type, an element outside
    this part of the format, a name without a definition or with two, gates in a circle, several
    top events, and a probability outside 0 to 1.

    >>> from_mef('<opsa-mef><define-fault-tree name="t"><define-gate name="top"><or>'
    ...          '<event name="a"/></or></define-gate><define-basic-event name="a">'
    ...          '<float value="1e-3"/></define-basic-event></define-fault-tree></opsa-mef>')
    ... # doctest: +NORMALIZE_WHITESPACE
    (Gate(id='top', title='', kind='any', inputs=(Event(id='a', title=''),), k=0, transfer=''),
     {'a': 0.001})
    """
    root = parsed(text)
    if root.tag != "opsa-mef":
        raise ValueError(f"The document is <{root.tag}>, not <opsa-mef>.")
    gates, basics = _definitions(root)
    events, q = _events(basics)
    drafts = {d.name: d for name, element in gates.items() for d in _drafts(name, element)}
    top = _built(drafts, events)
    structure(top)
    return top, q


@dataclass(frozen=True, slots=True)
class _Draft:
    """A gate whose inputs are still names."""

    name: str
    id: str
    title: str
    transfer: str
    kind: GateKind
    k: int
    inputs: tuple[str, ...]


def _definitions(root: Element) -> tuple[dict[str, Element], dict[str, Element]]:
    """The gates and the basic events by name."""
    gates: dict[str, Element] = {}
    basics: dict[str, Element] = {}
    for group in _children(root, ("define-fault-tree", "model-data")):
        allowed = ("define-gate", "define-basic-event")
        for element in _children(group, allowed[group.tag == "model-data" :]):
            name = attribute(element, "name")
            if name in gates or name in basics:
                raise ValueError(f"The name {name!r} is defined twice.")
            (gates if element.tag == "define-gate" else basics)[name] = element
    return gates, basics


def _children(element: Element, allowed: tuple[str, ...]) -> Iterator[Element]:
    """The elements within one that say more than its label and attributes."""
    for child in element:
        if child.tag not in (*allowed, *_ABOUT):
            raise ValueError(f"An element <{child.tag}> within <{element.tag}> is not read.")
        if child.tag in allowed:
            yield child


def _only(element: Element, allowed: tuple[str, ...]) -> Element | None:
    found = list(_children(element, allowed))
    if len(found) > 1:
        raise ValueError(f"{_called(element)} has more than one of <{'>, <'.join(allowed)}>.")
    return found[0] if found else None


def _called(element: Element) -> str:
    return f"The <{element.tag}> {element.get('name')!r}"


def _events(basics: Mapping[str, Element]) -> tuple[dict[str, Event], dict[str, float]]:
    """The basic events by name, and their probabilities by id."""
    events: dict[str, Event] = {}
    q: dict[str, float] = {}
    ids: set[str] = set()
    for name, element in basics.items():
        event = events[name] = Event(_extra(element, "id") or name, element.findtext("label", ""))
        if event.id in ids:
            raise ValueError(f"Two basic events have the id {event.id!r}.")
        ids.add(event.id)
        value = _only(element, ("float",))
        if value is not None:
            q[event.id] = _probability(name, attribute(value, "value"))
    return events, q


def _probability(name: str, written: str) -> float:
    try:
        value = float(written)
    except ValueError:
        raise ValueError(f"The probability {written!r} of {name!r} is no number.") from None
    if not 0 <= value <= 1:
        raise ValueError(f"The probability {written} of {name!r} is outside 0 to 1.")
    return value


def _extra(element: Element, name: str) -> str:
    """An attribute in the format's sense: a named value that any definition may carry."""
    named = (e for e in element.iterfind("attributes/attribute") if e.get("name") == name)
    return next((e.get("value", "") for e in named), "")


def _drafts(name: str, element: Element) -> Iterator[_Draft]:
    """The gate, and one for every formula within its formula, named after it."""
    formula = _only(element, (*_KINDS, *_REFERENCES))
    if formula is None:
        raise ValueError(f"The gate {name!r} has no formula.")
    title, transfer = element.findtext("label", ""), _extra(element, "transfer")
    waiting = [(name, (_extra(element, "id") or name, title, transfer), formula)]
    number = 0
    while waiting:
        own, said, formula = waiting.pop()
        inputs = []
        for part in [formula] if formula.tag in _REFERENCES else formula:
            if part.tag in _KINDS:
                number += 1
                inputs.append(f"{name}.{number}")
                waiting.append((inputs[-1], (inputs[-1], "", ""), part))
            elif part.tag in _REFERENCES:
                inputs.append(attribute(part, "name"))
            else:
                raise ValueError(f"An element <{part.tag}> within the gate {name!r} is not read.")
        yield _Draft(own, *said, _KINDS.get(formula.tag, "any"), _least(formula), tuple(inputs))


def _least(formula: Element) -> int:
    """The `min` of an `atleast`, 0 for the others."""
    if formula.tag != "atleast":
        return 0
    written = attribute(formula, "min")
    if not (written.isascii() and written.isdigit() and len(written) < 10):
        raise ValueError(f"The 'min' of an <atleast> is {written!r}, which is no count.")
    return int(written)


def _built(drafts: Mapping[str, _Draft], events: Mapping[str, Event]) -> Gate:
    """The top event with all under it."""
    nodes: dict[str, Node] = dict(events)
    for draft in _upward(drafts, events):
        inputs = tuple(nodes[name] for name in draft.inputs)
        nodes[draft.name] = Gate(draft.id, draft.title, draft.kind, inputs, draft.k, draft.transfer)
    used = {name for draft in drafts.values() for name in draft.inputs}
    tops = [name for name in drafts if name not in used]
    if len(tops) != 1:
        found = ", ".join(tops) or "none"
        raise ValueError(f"One gate must be the top, in no other gate; this document has: {found}.")
    return nodes[tops[0]]  # type: ignore[return-value]


def _upward(drafts: Mapping[str, _Draft], events: Mapping[str, Event]) -> Iterator[_Draft]:
    """Every gate after the gates under it. Raises ValueError for gates in a circle."""
    done: set[str] = set(events)
    for start in drafts:
        path = {} if start in done else {start: iter(drafts[start].inputs)}
        while path:
            name, rest = next(reversed(path.items()))
            below = next((n for n in rest if n not in done), None)
            if below is None:
                path.popitem()
                done.add(name)
                yield drafts[name]
            elif below in path:
                raise ValueError(f"Gates stand in a circle: {_round(path, below)}.")
            elif below not in drafts:
                raise ValueError(f"The gate {name!r} refers to {below!r}, which is not defined.")
            else:
                path[below] = iter(drafts[below].inputs)


def _round(path: Iterable[str], first: str) -> str:
    names = list(path)
    return " -> ".join([*names[names.index(first) :], first])
