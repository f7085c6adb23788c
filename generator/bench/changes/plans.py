"""What a change does to the work of remedies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.bench.bench import Bench


@dataclass(frozen=True, slots=True)
class PlanChange:
    """A failure mode whose job, on one family, is another."""

    family: str
    mode: str
    minutes_before: float
    "The whole job, from a closed machine to a proved one."
    minutes_now: float
    off: tuple[str, ...]
    "Parts that come off now and did not before."
    left: tuple[str, ...]
    "Parts that came off before and do not now."
    made: tuple[str, ...]
    "Settings that are made now and were not before."
    kept: tuple[str, ...]
    "Settings that were made before and are not now."


def plan_changes(before: Bench, now: Bench) -> Iterator[PlanChange]:
    """Jobs that are others, of families and failure modes that were there before."""
    for view in now.library.views:
        if view.id not in before.library.records.families:
            continue
        old = _jobs(before, view.id)
        for mode, (minutes, parts, settings) in _jobs(now, view.id).items():
            was = old.get(mode)
            if was and (f"{was[0]:.1f}", was[1], was[2]) != (f"{minutes:.1f}", parts, settings):
                came, went = sorted(parts - was[1]), sorted(was[1] - parts)
                made, kept = sorted(settings - was[2]), sorted(was[2] - settings)
                yield PlanChange(view.id, mode, was[0], minutes, tuple(came), tuple(went), tuple(made), tuple(kept))


def _jobs(bench: Bench, family: str) -> dict[str, tuple[float, frozenset[str], frozenset[str]]]:
    """Failure mode -> whole minutes, parts off, settings made."""
    view = bench.library.for_family(family)
    machine = bench.machine(view)
    works = {mode: (remedy, machine.work(remedy)) for mode, remedy in bench.remedies(view).items()}
    return {
        mode: (bench.whole_minutes(view, remedy), frozenset(work.parts), frozenset(work.settings))
        for mode, (remedy, work) in works.items()
    }
