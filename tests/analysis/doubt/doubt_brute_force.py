"""The least expected minutes under doubt by trying every policy: written from the rules alone.

Nothing is shared with the solver but the types of a case: no bits, no bounds, no memory. A job is
the list of what was done and seen; beliefs are reckoned from that list every time.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.check_order.case import Check
from generator.analysis.doubt.case import Doubt
from tests.analysis.check_order.order_brute_force import off, remedy_parts

Log = tuple[tuple[str, int], ...]
"(check, outcome seen), or (remedy, -1) where it did not cure."
SOMETHING_ELSE = ""


def least_minutes(doubt: Doubt, log: Log = ()) -> float:
    """Minutes (times share of all jobs) of the best of all policies that keep to the rules."""
    if sum(_beliefs(doubt, log).values()) < 1e-15:
        return 0.0
    return min(cost + sum(least_minutes(doubt, after) for after in then) for cost, then in steps(doubt, log))


def steps(doubt: Doubt, log: Log) -> Iterator[tuple[float, list[Log]]]:
    """Minutes (times share) of everything that may come next, and what the log may be after it."""
    beliefs, machine = _beliefs(doubt, log), doubt.case.machine
    share, open_parts = sum(beliefs.values()), _open(doubt, log)
    done = {name for name, _ in log} | _repeats(doubt, log)
    waiting = [c for c in doubt.before if c not in done]
    if not waiting:
        yield share * doubt.stop_minutes + (share - beliefs[SOMETHING_ELSE]) * doubt.come_back_minutes, []
        for remedy in _remedies(doubt, log):
            parts, settings = remedy_parts(machine, remedy)
            minutes = _minutes(doubt, parts - open_parts) + sum(machine.settings[s].minutes for s in settings)
            yield share * (minutes + remedy.minutes + doubt.case.proving_minutes), [(*log, (remedy.id, -1))]
    faults = open_faults(doubt, log, _tried(doubt, log))
    for check in doubt.case.checks:
        if faults and check.id in doubt.powered:
            continue
        if check.id not in done and check.id in (waiting or [check.id])[:1] and not _too_early(doubt, check.id, done):
            minutes = check.minutes + _minutes(doubt, off(machine, set(check.reach)) - open_parts)
            goes_on = [n for n in range(len(check.outcomes)) if n not in check.cured]
            yield share * minutes, [(*log, (check.id, n)) for n in goes_on]


def open_faults(doubt: Doubt, log: Log, tried: set[str]) -> list[set[str]]:
    """By each check that has shown a fault where it must be found sound: what may mend it and is not done, while anything is."""
    checks = {c.id: c for c in doubt.case.checks}
    found = []
    for name, outcome in log:
        if name in doubt.safe and outcome != doubt.readings[name].sound:
            mends = {h.remedy.id for h in doubt.case.hypotheses if checks[name].sees[h.id] == outcome}
            if not mends or mends - tried:
                found.append(mends - tried)
    return found


def _minutes(doubt: Doubt, parts: set[str]) -> float:
    return sum(doubt.case.machine.parts[p].off_minutes + doubt.case.machine.parts[p].on_minutes for p in parts)


def _too_early(doubt: Doubt, name: str, done: set[str]) -> bool:
    return any(by == name and reads not in done for by, reads in doubt.lost)


def _open(doubt: Doubt, log: Log) -> set[str]:
    checks = {c.id: c for c in doubt.case.checks}
    remedies = {h.remedy.id: h.remedy for h in doubt.case.hypotheses}
    found: set[str] = set()
    for name, outcome in log:
        if outcome < 0:
            found |= remedy_parts(doubt.case.machine, remedies[name])[0]
        else:
            found |= off(doubt.case.machine, set(checks[name].reach))
    return found


def _beliefs(doubt: Doubt, log: Log) -> dict[str, float]:
    checks = {c.id: c for c in doubt.case.checks}
    beliefs = {h.id: h.share * (1 - doubt.unlisted) for h in doubt.case.hypotheses}
    beliefs[SOMETHING_ELSE] = doubt.unlisted
    cured_by = {h.id: h.remedy.id for h in doubt.case.hypotheses}
    for name, outcome in log:
        for cause in beliefs:
            if outcome < 0:
                beliefs[cause] *= 1 - doubt.cures if cured_by.get(cause) == name else 1
            else:
                beliefs[cause] *= seen(doubt, checks[name], cause)[outcome]
    return beliefs


def seen(doubt: Doubt, check: Check, cause: str) -> list[float]:
    """Probability of every outcome; the cause with the empty id is the unlisted one."""
    reading = doubt.readings[check.id]
    true = reading.sound if cause == SOMETHING_ELSE else check.sees[cause]
    others = [n for n in range(len(check.outcomes)) if n != true and n not in check.cured]
    found = [0.0] * len(check.outcomes)
    found[true] = reading.trust[true] if others else 1.0
    for n in others:
        found[n] = (1 - reading.trust[true]) / len(others)
    return found


def _remedies(doubt: Doubt, log: Log) -> list:
    """Not done, not too early, and proved where that is wanted."""
    done = {name for name, _ in log} | _repeats(doubt, log)
    checks = {c.id: c for c in doubt.case.checks}
    proved = {
        h.remedy.id for name, outcome in log if outcome >= 0 for h in doubt.case.hypotheses
        if checks[name].sees[h.id] == outcome != doubt.readings[name].sound
    }
    found = {h.remedy.id: h.remedy for h in doubt.case.hypotheses}
    faults = open_faults(doubt, log, _tried(doubt, log))
    return [
        r for r in found.values()
        if r.id not in _tried(doubt, log)
        and (not faults or any(r.id in mends for mends in faults))
        and not _too_early(doubt, r.id, done)
        and (r.id not in doubt.dear or r.id in doubt.no_sign or r.id in proved)
    ]


def _tried(doubt: Doubt, log: Log) -> set[str]:
    """Remedies done, by themselves or by a check."""
    checks = {c.id: c for c in doubt.case.checks}
    found = {name for name, outcome in log if outcome < 0}
    return found.union(*(does(doubt, checks[name]) for name, outcome in log if outcome >= 0))


def does(doubt: Doubt, check: Check) -> set[str]:
    """Remedies that a check does: those it says, and those all of whose causes it would cure."""
    hypotheses = doubt.case.hypotheses
    spared = {h.remedy.id for h in hypotheses if check.sees[h.id] not in check.cured}
    return doubt.readings[check.id].does | ({h.remedy.id for h in hypotheses} - spared)


def _repeats(doubt: Doubt, log: Log) -> set[str]:
    """Trials of which nothing is left that was not tried: they count as done."""
    tried = _tried(doubt, log)
    return {c.id for c in doubt.case.checks if c.cured and does(doubt, c) and does(doubt, c) <= tried}
