"""Two states of the records, and what lies between them: for a reviewer who reads no YAML."""

from __future__ import annotations

from dataclasses import dataclass

from generator.bench.bench import Bench
from generator.bench.changes.complaints import Ambiguity, OrderChange, affected, ambiguities, order_changes
from generator.bench.changes.falls import Fall, falls
from generator.bench.changes.plans import PlanChange, plan_changes
from generator.bench.changes.texts import RecordChange, record_changes

__all__ = ["Ambiguity", "Changes", "Fall", "OrderChange", "PlanChange", "RecordChange", "changes"]


@dataclass(frozen=True, slots=True)
class Changes:
    """Everything that a reviewer wants to see."""

    added: tuple[RecordChange, ...]
    removed: tuple[RecordChange, ...]
    changed: tuple[RecordChange, ...]
    order_changes: tuple[OrderChange, ...]
    "The largest first; complaints that came or went among them."
    falls: tuple[Fall, ...]
    "Where new failure modes fall in checks that were there before."
    ambiguous: tuple[Ambiguity, ...]
    "Causes that no check tells apart any more."
    plans: tuple[PlanChange, ...]
    "The largest first."


def changes(before: Bench, now: Bench) -> Changes:
    """What differs from one bench to another. Complaints whose case is the same are not worked out again."""
    added, removed, changed = record_changes(before.library.records, now.library.records)
    if not (added or removed or changed):
        return Changes((), (), (), (), (), (), ())
    pairs = affected(before, now)
    return Changes(
        added,
        removed,
        changed,
        tuple(order_changes(before, now, pairs)),
        tuple(falls(before, now)),
        tuple(ambiguities(pairs)),
        tuple(plan_changes(before, now)),
    )
