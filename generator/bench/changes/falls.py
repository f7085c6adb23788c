"""Where new failure modes fall in checks that were there before them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.bench.bench import Bench
from generator.bench.complaint import Complaint
from generator.bench.doubt import NONE_OF_THESE
from generator.records.model import Check


@dataclass(frozen=True, slots=True)
class Fall:
    """What an old check shows where a new failure mode is the cause."""

    mode: str
    check: str
    says: str
    "The outcome."
    how: str
    "named: the outcome fits it. rest: it falls to the outcome for all else. nowhere: no outcome takes it."


Falls = dict[tuple[str, str], Fall]
"By failure mode and check."


def falls(before: Bench, now: Bench) -> Falls:
    """For every new failure mode, each check of before that bears on a complaint of it."""
    new = now.library.records.failure_modes.keys() - before.library.records.failure_modes.keys()
    seen: Falls = {}
    for complaint in now.complaints() if new else ():
        for mode in sorted(new & complaint.rates.keys()):
            for fall in _in_checks(now, complaint, mode, before.library.records.checks):
                seen.setdefault((mode, fall.check), fall)
    return seen


def _in_checks(now: Bench, complaint: Complaint, mode: str, old: Mapping[str, Check]) -> Iterator[Fall]:
    for check in complaint.case.checks:
        outcome = check.sees.get(mode)
        if check.id in old and outcome is not None:
            says = check.outcomes[outcome]
            yield Fall(mode, check.id, says, _how(now, complaint.view.checks[check.id], mode, says))


def _how(now: Bench, record: Check, mode: str, says: str) -> str:
    named = any(mode in now.library.fitted(fit) for outcome in record.outcomes for fit in outcome.fits)
    if named:
        return "named"
    return "nowhere" if says == NONE_OF_THESE else "rest"
