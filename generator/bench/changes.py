"""Two states of the records, and what lies between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

from generator.analysis.check_order import CheckNode
from generator.bench.bench import Bench
from generator.bench.complaint import Complaint
from generator.records.kinds import KINDS
from generator.records.model import Records

_SAME_MINUTES = 0.05
"Expected minutes that differ by less are shown alike."


@dataclass(frozen=True, slots=True)
class RecordChange:
    """One record that is new, gone or different."""

    kind: str
    id: str
    keys: tuple[str, ...] = ()
    "Keys whose value differs."


@dataclass(frozen=True, slots=True)
class OrderChange:
    """A complaint whose order of checks, or its minutes, is another."""

    family: str
    symptom: str
    minutes_before: float | None
    "None where the family could not have the symptom."
    minutes_now: float | None
    first_before: str | None
    "The first check, or the remedy where none comes before it."
    first_now: str | None


@dataclass(frozen=True, slots=True)
class Changes:
    """Everything that a reviewer wants to see first."""

    added: tuple[RecordChange, ...]
    removed: tuple[RecordChange, ...]
    changed: tuple[RecordChange, ...]
    order_changes: tuple[OrderChange, ...]


def changes(before: Bench, now: Bench) -> Changes:
    """What differs from one bench to another, by kind and id."""
    old, new = _all(before.library.records), _all(now.library.records)
    return Changes(
        added=tuple(RecordChange(*key) for key in sorted(new.keys() - old.keys())),
        removed=tuple(RecordChange(*key) for key in sorted(old.keys() - new.keys())),
        changed=tuple(
            RecordChange(*key, _keys(old[key], new[key]))
            for key in sorted(old.keys() & new.keys())
            if old[key] != new[key]
        ),
        order_changes=tuple(_orders(before, now)),
    )


def _all(records: Records) -> dict[tuple[str, str], object]:
    found: dict[tuple[str, str], object] = {("shop", "shop"): records.shop}
    for kind in KINDS.values():
        held = getattr(records, kind.group)
        if isinstance(held, Mapping):
            found |= {(kind.name, record_id): record for record_id, record in held.items()}
    return found


def _keys(old: object, new: object) -> tuple[str, ...]:
    """Fields that differ; for a family's fastener notes, the joints."""
    if isinstance(old, tuple) and isinstance(new, tuple):
        one, other = ({note.joint: note for note in notes} for notes in (old, new))
        return tuple(sorted(j for j in one.keys() | other.keys() if one.get(j) != other.get(j)))
    names = [f.name for f in fields(old)]  # type: ignore[arg-type]
    return tuple(name for name in names if getattr(old, name) != getattr(new, name))


def _orders(before: Bench, now: Bench) -> Iterator[OrderChange]:
    old = {(c.view.id, c.symptom.id): c for c in before.complaints()}
    new = {(c.view.id, c.symptom.id): c for c in now.complaints()}
    for key in sorted(old.keys() | new.keys()):
        was, is_now = _order(before, old.get(key)), _order(now, new.get(key))
        if was[1] != is_now[1] or abs((was[0] or 0) - (is_now[0] or 0)) >= _SAME_MINUTES:
            yield OrderChange(*key, was[0], is_now[0], was[1], is_now[1])


def _order(bench: Bench, complaint: Complaint | None) -> tuple[float | None, str | None]:
    if complaint is None:
        return None, None
    solution = bench.diagnosed(complaint).solution
    step = solution.policy
    return solution.expected_minutes, step.check if isinstance(step, CheckNode) else step.remedy
