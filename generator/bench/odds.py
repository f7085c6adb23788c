"""How often a failure mode is met on a family, and what is behind one of its complaints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from math import prod

from generator.analysis.evidence import Rate, rate
from generator.family_view import FamilyView
from generator.library import Library


def met(view: FamilyView, mode: str) -> Rate:
    """How often the failure mode is met, whatever the machine was brought in for."""
    counts = [(sum(f.count for f in t.found if f.mode == mode), t) for t in view.tallies]
    counted = [(n, t) for n, t in counts if any(f.mode == mode for f in t.found)]
    return _rate(view, mode, sum(n for n, _ in counted), sum(t.machines for _, t in counted))


def weights(
    library: Library, view: FamilyView, symptom: str, hypotheses: Collection[tuple[str, ...]]
) -> dict[str, float]:
    """Hypothesis id -> machines of the family that come in with the complaint because of it, as a probability.

    How often its failure modes are met, times how they show. Those that bring the complaint about only
    together always show as it where they meet, unless a record says otherwise.
    """
    alone = {causes[0] for causes in hypotheses if len(causes) == 1}
    chance = {}
    for mode in {m for causes in hypotheses for m in causes}:
        says = mode in alone or symptom in view.failure_modes[mode].shows
        chance[mode] = _without_complaint(view, mode).mean * (library.shown(mode, symptom) if says else 1)
    return {"+".join(causes): prod(chance[c] for c in causes) for causes in hypotheses}


def found_behind(view: FamilyView, symptom: str) -> Mapping[str, int]:
    """Failure mode id -> bench jobs with the complaint that had it."""
    found: Counter[str] = Counter()
    for tally in view.tallies:
        found.update({f.mode: f.count for f in tally.found if f.symptom == symptom})
    return found


def _without_complaint(view: FamilyView, mode: str) -> Rate:
    """The rate that jobs of an unknown complaint lead to: what was found behind another complaint says nothing of this one."""
    found = machines = 0
    for tally in view.tallies:
        counts = [f for f in tally.found if f.mode == mode]
        unknown = [f.count for f in counts if f.symptom is None]
        if unknown:
            found += sum(unknown)
            machines += tally.machines - sum(f.count for f in counts if f.symptom is not None)
    return _rate(view, mode, found, machines)


def _rate(view: FamilyView, mode: str, found: int, machines: int) -> Rate:
    return rate(min(view.seen(mode) / 1000, 0.999), found, machines)
