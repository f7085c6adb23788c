"""Records as data, cut loose from what is not taken along, and what is taken given other names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from copy import deepcopy
from typing import Any

from generator.records.node import Places, Route
from generator.records.read import Record
from generator.records.references import Reference, references_of

Name = Callable[[str, str], str | None]
"Kind and id of what is named -> its id in the made library; None where it is not taken along."

_SAYS_NOTHING_WITHOUT = ("mode", "joint", "use")
"Keys of an entry that goes with what they name."


def relinked(kind: str, data: object, name: Name) -> Any:
    """A copy of a record's data in which every name of another record is the new one, or gone."""
    copied = deepcopy(data)
    found = references_of(Record(kind, "", copied, Places({}, {}), True))
    for reference in sorted(found, key=_deepest_last, reverse=True):
        _relink(copied, reference, name(reference.target, reference.id))
    for holder in (copied, *(use for use in copied["assemblies"] if isinstance(use, dict))) if kind == "family" else (copied,):
        if kind in ("family", "assembly"):
            _rename_items(holder, name)
    return copied


def _rename_items(holder: Any, name: Name) -> None:
    """The parts and settings that an assembly defines, or that a family changes or leaves out."""
    for kind, key in (("part", "parts"), ("setting", "settings")):
        if key in holder:
            holder[key] = {name(kind, id): item for id, item in holder[key].items()}
    if "without" in holder:
        holder["without"] = [name("part", id) or name("setting", id) for id in holder["without"]]


def _deepest_last(reference: Reference) -> tuple[int, list[tuple[bool, str, int]]]:
    """An order whose reverse never moves what is still to come: deeper first, then later in a list first."""
    steps = [(isinstance(s, int), "" if isinstance(s, int) else s, s if isinstance(s, int) else 0) for s in _goes_with(reference)]
    return len(steps), steps


def _goes_with(reference: Reference) -> Route:
    """The route of what is taken out where the name is."""
    return reference.route[:-1] if reference.route[-1] in _SAYS_NOTHING_WITHOUT else reference.route


def _relink(data: Any, reference: Reference, now: str | None) -> None:
    *above, last = reference.route
    holder = _at(data, tuple(above))
    if now is None:
        _take_out(data, _goes_with(reference))
    elif reference.key:
        items = [(now if key == last else key, value) for key, value in holder.items()]
        holder.clear()
        holder.update(items)
    else:
        holder[last] = now


def _take_out(data: Any, route: Route) -> None:
    """Takes a value out, and what it alone stood in."""
    *above, last = route
    holder = _at(data, tuple(above))
    del holder[last]
    if not holder and above:
        _take_out(data, tuple(above))


def _at(data: Any, route: Route) -> Any:
    for step in route:
        data = data[step]
    return data


def cut_tree(node: Any, keep: frozenset[str], gates: Mapping[str, Any], top: bool = True) -> Any:
    """A fault tree with these failure modes alone, transfers written out; None where nothing is left."""
    if isinstance(node, str):
        return node if node in keep else None
    if "see" in node:
        return _without_ids(cut_tree(gates[node["see"]], keep, gates, top=False))
    inputs_key = next(key for key in ("any", "all", "of") if key in node)
    inputs: list[Any] = []
    for below in node[inputs_key]:
        cut = cut_tree(below, keep, gates, top=False)
        if cut is not None and cut not in inputs:
            inputs.append(cut)
    if not inputs or (len(inputs) == 1 and not top):
        return inputs[0] if inputs else None
    vote = {"at_least": min(node["at_least"], len(inputs))} if inputs_key == "of" else {}
    return {**node, **vote, inputs_key: inputs}


def _without_ids(node: Any) -> Any:
    """A gate stands under its id in one tree alone."""
    if not isinstance(node, dict):
        return node
    lists = {key: [_without_ids(below) for below in node[key]] for key in ("any", "all", "of") if key in node}
    return {**{key: value for key, value in node.items() if key != "id"}, **lists}
