"""Two plain rules: what comes next where nothing is searched."""

from __future__ import annotations

from math import fsum

from generator.analysis.check_order.case import Check
from generator.analysis.check_order.situation import Situation
from generator.analysis.machine import Remedy


def next_in_record(now: Situation) -> Check | Remedy:
    """The first check of the record that still tells anything; after them the remedies in the order of the hypotheses."""
    checks = (check for check in now.case.checks if now.tells(check))
    return next(checks, None) or now.remedies()[0]


def best_ratio(now: Situation) -> Check | Remedy:
    """The step of most probability for its cost.

    A remedy's probability is the share that it cures. A check's is the share of the hypotheses
    for which it would end the job or leave a single remedy to do. The cost is the minutes of the
    step from here, with what must be opened for it. Ties: the cheaper step, then a remedy before
    a check, then by id.
    """
    checks = [check for check in now.case.checks if now.tells(check)]
    costs: list[tuple[float, int, str, float, Check | Remedy]] = [
        (now.remedy_minutes(r), 0, r.id, _cured(now, r), r) for r in now.remedies()
    ]
    costs += [(now.check_minutes(c), 1, c.id, _singled_out(now, c), c) for c in checks]
    return min(costs, key=lambda step: (-_ratio(step[3], step[0]), *step[:3]))[-1]


def _ratio(probability: float, minutes: float) -> float:
    if not minutes:
        return float("inf") if probability else 0.0
    return probability / minutes


def _cured(now: Situation, remedy: Remedy) -> float:
    return fsum(h.share for h in now.left if h.remedy.id == remedy.id)


def _singled_out(now: Situation, check: Check) -> float:
    after = {n: now.after_check(check, n) for n in sorted({check.sees[h.id] for h in now.left})}
    return fsum(s.share() for n, s in after.items() if n in check.cured or s.last_remedy())


PLAIN_RULES = (best_ratio, next_in_record)
"What a search that was given up falls back on where they do better."
