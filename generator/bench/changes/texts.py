"""What changed in the records, value by value, as a person would read it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from generator.records.kinds import KINDS
from generator.records.model import Records, TreeEvent, TreeGate, TreeNode, TreeTransfer

_NAMED_BY = ("joint", "point", "says", "mode", "do", "use")
"Fields by which an entry of a list is known from one state to the other."


@dataclass(frozen=True, slots=True)
class ValueChange:
    """One value: what it was and what it is."""

    key: str
    "Its path in the record."
    before: str
    "Empty where it was not there."
    now: str
    "Empty where it is no more."


@dataclass(frozen=True, slots=True)
class RecordChange:
    """One record that is new, gone or different."""

    kind: str
    id: str
    title: str
    values: tuple[ValueChange, ...] = ()
    "In the order of the record; of a new or gone record none."

    @property
    def keys(self) -> tuple[str, ...]:
        """Keys of the record under which something differs; of fastener notes, their joints."""
        return tuple(dict.fromkeys(value.key.partition(".")[0].partition("[")[0] for value in self.values))


def record_changes(
    before: Records, now: Records
) -> tuple[tuple[RecordChange, ...], tuple[RecordChange, ...], tuple[RecordChange, ...]]:
    """Records that came, that went, and that are others, by kind and id."""
    old, new = _all(before), _all(now)
    changed = (
        RecordChange(*key, _title(new[key]), tuple(values))
        for key in sorted(old.keys() & new.keys())
        if old[key] != new[key] and (values := list(_differing(old[key], new[key])))
    )
    came, went = sorted(new.keys() - old.keys()), sorted(old.keys() - new.keys())
    return (
        tuple(RecordChange(*key, _title(new[key])) for key in came),
        tuple(RecordChange(*key, _title(old[key])) for key in went),
        tuple(changed),
    )


def others(before: Records, now: Records) -> list[tuple[str, str]]:
    """Kind and id of all records that are not the same in both, in the order of what they hold too."""
    old, new = _all(before), _all(now)
    return [key for key in old.keys() | new.keys() if old.get(key) is not new.get(key) and repr(old.get(key)) != repr(new.get(key))]


def _all(records: Records) -> dict[tuple[str, str], object]:
    found: dict[tuple[str, str], object] = {("shop", "shop"): records.shop}
    for kind in KINDS.values():
        held = getattr(records, kind.group)
        if isinstance(held, Mapping):
            found |= {(kind.name, record_id): record for record_id, record in held.items()}
    return found


def _title(record: object) -> str:
    return str(getattr(record, "title", "") or "")


def _differing(old: object, new: object) -> Iterator[ValueChange]:
    was, is_now = dict(_flat(old, "")), dict(_flat(new, ""))
    for key in dict.fromkeys((*was, *is_now)):
        if was.get(key, "") != is_now.get(key, ""):
            yield ValueChange(key, was.get(key, ""), is_now.get(key, ""))


def _flat(value: Any, path: str) -> Iterator[tuple[str, str]]:
    """Path and text of every value below one; a fault tree gives a line for each of its inputs."""
    if isinstance(value, TreeGate):
        yield from ((f"{path}[{line}]", "in the tree") for line in dict.fromkeys(_tree_lines(value, "")))
    elif is_dataclass(value):
        for field in fields(value):
            yield from _flat(getattr(value, field.name), f"{path}.{field.name}" if path else field.name)
    elif isinstance(value, Mapping):
        for key, below in value.items():
            yield from _flat(below, f"{path}.{key}" if path else str(key))
    elif isinstance(value, tuple | list):
        yield from _entries(value, path)
    elif value is not None and value != "":
        yield path, f"{value:g}" if isinstance(value, float) else str(value)


def _entries(values: tuple[Any, ...] | list[Any], path: str) -> Iterator[tuple[str, str]]:
    """A list of words is one text; an entry with a name of its own is known by it, any other by its place."""
    if values and all(isinstance(value, str) and len(value) <= 80 for value in values):
        yield path, ", ".join(values)
        return
    for number, value in enumerate(values, 1):
        name = next((getattr(value, field) for field in _NAMED_BY if getattr(value, field, None)), number)
        key = f"{path}[{name}]" if path else str(name)
        yield from _flat(value, key)


def _tree_lines(node: TreeNode, under: str) -> Iterator[str]:
    if isinstance(node, TreeEvent):
        yield f"{under}{node.id}"
    elif isinstance(node, TreeTransfer):
        yield f"{under}see {node.see}"
    else:
        words = {"any": "any of", "all": "all of"}.get(node.kind, f"at least {node.k} of")
        name = f"{node.title or node.id or 'the symptom'} ({words})"
        for below in node.inputs:
            yield from _tree_lines(below, f"{under}{name} > ")
