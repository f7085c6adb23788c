"""What records name, and what they define: found in data of any shape, so that one fault hides no other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from generator.records.gates import gates
from generator.records.model import AS_IT_LIES
from generator.records.nested import children, match
from generator.records.node import Route
from generator.records.read import Content, Record

_OPENING = {"behind": "part", "disturbs": "setting", "renew_with": "part", "joints": "joint"}
_GUARDS = {"needs": "feature", "lacks": "feature", "cautions": "caution", "tools": "tool"}
_SETTING = {"after": "setting", "disturbs": "setting", "reach": "part", "in_place": "part", "joints": "joint"}


def _lists(table: Mapping[str, str], *before: str) -> dict[tuple[str, ...], str]:
    return {(*before, key, "*"): target for key, target in table.items()}


def _part(*before: str) -> dict[tuple[str, ...], str]:
    moves = {
        (*before, move, *rest): target
        for move in ("off", "on")
        for rest, target in {("technique",): "technique", ("position",): "position", **_lists(_GUARDS | {"slackens": "joint"})}.items()
    }
    return {**_lists(_OPENING, *before), **_lists(_GUARDS, *before), **moves}


def _setting(*before: str) -> dict[tuple[str, ...], str]:
    single = {
        (*before, "proved_by"): "check",
        (*before, "position"): "position",
        (*before, "target", "source"): "source",
        (*before, "gauge", "tool"): "tool",
    }
    return {**_lists(_SETTING, *before), **_lists(_GUARDS, *before), **single}


NAMES: dict[str, dict[tuple[str, ...], str]] = {
    "family": {
        ("assemblies", "*"): "assembly",
        ("assemblies", "*", "use"): "assembly",
        **_part("assemblies", "*", "parts", "*"),
        **_setting("assemblies", "*", "settings", "*"),
        ("features", "*:"): "feature",
        ("figures", "*", "source"): "source",
        ("needle", "source"): "source",
        ("rates", "*:"): "failure-mode",
        ("symptoms", "*"): "symptom",
        ("cautions", "*"): "caution",
    },
    "assembly": {
        ("brings", "*"): "feature",
        **_part("parts", "*"),
        **_setting("settings", "*"),
        ("oil", "*", "part"): "part",
        ("oil", "*", "reach", "*"): "part",
        ("oil", "*", "source"): "source",
        ("cautions", "*"): "caution",
    },
    "symptom": {("before", "*"): "check", **_lists(_GUARDS)},
    "failure-mode": {
        ("part",): "part",
        ("setting",): "setting",
        **_lists(_GUARDS),
        ("shows", "*:"): "symptom",
        ("unseen_by", "*:"): "check",
        ("source",): "source",
        ("looks_like", "*", "mode"): "failure-mode",
        **_lists(
            {"renew": "part", "set": "setting", "clean": "part", "reach": "part", "tools": "tool"}, "remedy"
        ),
        ("remedy", "technique"): "technique",
    },
    "check": {
        ("only_for", "*"): "symptom",
        ("does", "*"): "failure-mode",
        ("evidence_lost_by", "*"): "check",
        ("reach", "*"): "part",
        ("in_place", "*"): "part",
        ("position",): "position",
        ("figures", "*"): "setting",
        **_lists(_GUARDS),
        ("source",): "source",
        ("outcomes", "*", "fits", "*"): "fit",
    },
    "fasteners": {
        ("*", "joint"): "joint",
        ("*", "cautions", "*"): "caution",
        ("*", "source"): "source",
    },
    "tally": {
        ("family",): "family",
        ("found", "*:"): "failure-mode",
        ("found", "*", "mode"): "failure-mode",
        ("found", "*", "symptom"): "symptom",
        ("took", "*", "mode"): "failure-mode",
    },
    "technique": {
        **_lists(_GUARDS),
        ("steps", "*", "caution"): "caution",
        ("source",): "source",
    },
    "caution": {("needs", "*"): "feature", ("source",): "source"},
    "feature": _lists({"not_with": "feature", "only_with": "feature"}),
    "term": {("see", "*"): "term"},
    "shop": {
        ("prices", "*:"): "part",
        ("stock", "*:"): "part",
        ("closing_tests", "*", "figure"): "figure",
        ("closing_tests", "*", "needs", "*"): "feature",
        ("closing_tests", "*", "lacks", "*"): "feature",
    },
}
"""Kind of record -> where it names something -> the kind of what is named.

Patterns are those of `match`. The kind "fit" is what a check's outcome may fit: see `FITS`.
"""

FITS = ("failure-mode", "gate", "part", "setting", "assembly")
"Kinds that an outcome may fit."


class Reference(NamedTuple):
    """One place where a record names something; a tuple, since a large book has half a million of them."""

    record: Record
    "The record that names it."
    route: Route
    "Where in the record."
    key: bool
    "Whether the name is the key at the route rather than the value."
    target: str
    "The kind of what is named."
    id: str
    "What is named."


def references(content: Content) -> list[Reference]:
    """Every name in every record that could be read, sound or not, in order of kind, id and route."""
    records = (record for by_id in content.records.values() for record in by_id.values())
    return [reference for record in records for reference in references_of(record)]


def references_of(record: Record) -> list[Reference]:
    """Every name in one record."""
    return [*_named(record), *_in_tree(record)]


def _named(record: Record) -> list[Reference]:
    found: list[Reference] = []
    _find(record, record.data, (), _STEPS.get(record.kind, _Steps()), found)
    return found


@dataclass(slots=True)
class _Steps:
    """Patterns of `NAMES`, joined where they begin alike: all are followed in one walk through a record."""

    target: str | None = None
    "The kind of what a value here names."
    below: dict[str, _Steps] = field(default_factory=dict)
    "Next step -> what goes on from there."


def _joined(patterns: Mapping[tuple[str, ...], str]) -> _Steps:
    top = _Steps()
    for pattern, target in patterns.items():
        here = top
        for step in pattern:
            here = here.below.setdefault(step, _Steps())
        here.target = target
    return top


_STEPS = {kind: _joined(patterns) for kind, patterns in NAMES.items()}


def _find(record: Record, data: object, route: Route, steps: _Steps, found: list[Reference]) -> None:
    if steps.target and isinstance(data, str):
        found.append(Reference(record, route, False, steps.target, data))
    for step, after in steps.below.items() if isinstance(data, dict | list) else ():
        if step == "*:":
            found += [Reference(record, (*route, key), True, str(after.target), key) for key, _ in children(data) if isinstance(key, str)]
        elif step == "*":
            for key, value in children(data):
                _find(record, value, (*route, key), after, found)
        elif isinstance(data, dict) and step in data:
            _find(record, data[step], (*route, step), after, found)


def _in_tree(record: Record) -> Iterator[Reference]:
    if record.kind != "symptom":
        return
    for route, gate in gates(record.data):
        for key in ("any", "all", "of"):
            for place, node in children(gate.get(key)):
                yield from _input(record, (*route, key, place), node)


def _input(record: Record, route: Route, node: object) -> Iterator[Reference]:
    if isinstance(node, str):
        yield Reference(record, route, False, "failure-mode", node)
    elif isinstance(node, dict) and isinstance(node.get("see"), str):
        yield Reference(record, (*route, "see"), False, "gate", node["see"])


def definitions(content: Content, named: Iterable[Reference]) -> dict[str, frozenset[str]]:
    """Kind -> every id that some record defines, sound or not; gates both bare and as symptom/gate.

    A joint exists where a part or a setting is held by it, and a feature where a family states it:
    both are read off the references `named`.
    """
    assemblies, symptoms = content.records["assembly"].values(), content.records["symptom"].values()
    found = {kind: {*ids, *content.unread.get(kind, ())} for kind, ids in content.records.items()}
    found["source"] |= {"common-practice", "from-memory", "demo"}
    found["position"] |= {"upright", AS_IT_LIES}
    found["part"] = {str(key) for a in assemblies for _, _, key in match(a.data, ("parts", "*:"))}
    found["setting"] = {str(key) for a in assemblies for _, _, key in match(a.data, ("settings", "*:"))}
    found["joint"] = {r.id for r in named if r.target == "joint" and r.record.kind != "fasteners"}
    found["feature"] |= {r.id for r in named if r.target == "feature" and r.record.kind == "family" and r.key}
    found["gate"] = {id for symptom in symptoms for id in _gate_ids(symptom)}
    return {kind: frozenset(ids) for kind, ids in found.items()}


def _gate_ids(symptom: Record) -> Iterator[str]:
    for _, gate in gates(symptom.data):
        if isinstance(gate.get("id"), str):
            yield from (str(gate["id"]), f"{symptom.id}/{gate['id']}")
