"""Two states of the records, and what lies between them: for a reviewer who reads no YAML."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.bench.bench import Bench
from generator.bench.changes.complaints import Ambiguity, OrderChange, affected, ambiguities, order_changes
from generator.bench.changes.falls import Fall, Falls, falls
from generator.bench.changes.parts import touched
from generator.bench.changes.plans import PlanChange, plan_changes
from generator.bench.changes.texts import RecordChange, others, record_changes
from generator.library import Library
from generator.uncollected import uncollected

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


def changes(before: Library, now: Library, cache: Path | None = None) -> Changes:
    """What differs from one library to another. `cache`: where orders of checks are kept.

    Only what the differing records reach is worked out; complaints whose case is the same, not any further.
    """
    added, removed, changed = record_changes(before.records, now.records)
    if not (added or removed or changed):
        return Changes((), (), (), (), (), (), ())
    orders: list[OrderChange] = []
    fallen: dict[tuple[str, str], Fall] = {}
    ambiguous: list[Ambiguity] = []
    plans: list[PlanChange] = []
    for was, is_now in touched(before, now, others(before.records, now.records)):
        part = _in_part(Bench(Library(was), cache), Bench(Library(is_now), cache))
        orders += part[0]
        fallen = part[1] | fallen
        ambiguous += part[2]
        plans += part[3]
    return Changes(
        added,
        removed,
        changed,
        tuple(sorted(orders, key=lambda o: (-round(o.size, 3), o.family, o.symptom))),
        tuple(fallen[key] for key in sorted(fallen)),
        tuple(ambiguous),
        tuple(sorted(plans, key=lambda p: (-round(abs(p.minutes_now - p.minutes_before), 3), p.family, p.mode))),
    )


@uncollected
def _in_part(before: Bench, now: Bench) -> tuple[list[OrderChange], Falls, list[Ambiguity], list[PlanChange]]:
    """What differs from one bench to another in what is worked out, in the order of families."""
    pairs = affected(before, now)
    return list(order_changes(before, now, pairs)), falls(before, now), list(ambiguities(pairs)), list(plan_changes(before, now))
