"""The least expected minutes by trying every policy: written from the rules of counting alone.

Nothing is shared with the solver but the types of a case. No bounds, no bits, no groups, no
memory: every useful check and every remedy is tried in every situation.
"""

from __future__ import annotations

from generator.analysis.check_order.case import Case, Check
from generator.analysis.machine import Machine, Remedy


def least_minutes(
    case: Case, left: list[str] | None = None, opened: set[str] | None = None
) -> float:
    """Expected minutes of the best of all policies, shares of what is left scaled to 1."""
    shares = {h.id: h.share for h in case.hypotheses if left is None or h.id in left}
    return _least(case, list(shares), opened or set()) / sum(shares.values())


def _least(case: Case, left: list[str], opened: set[str]) -> float:
    if not left:
        return 0.0
    by_id = {h.id: h for h in case.hypotheses}
    remedies = {by_id[h].remedy.id: by_id[h].remedy for h in left}
    share = sum(by_id[h].share for h in left)
    if len(remedies) == 1:
        (remedy,) = remedies.values()
        return share * _remedy_minutes(case, remedy, opened)
    options = []
    for remedy in remedies.values():
        rest = [h for h in left if by_id[h].remedy.id != remedy.id]
        now_open = opened | off(case.machine, remedy_parts(case.machine, remedy)[0])
        options.append(
            share * _remedy_minutes(case, remedy, opened) + _least(case, rest, now_open)
        )
    for check in case.checks:
        if _useful(check, left):
            options.append(_check(case, check, left, share, opened))
    return min(options)


def _useful(check: Check, left: list[str]) -> bool:
    outcomes = {check.sees[h] for h in left}
    return len(outcomes) > 1 or any(outcome in check.cured for outcome in outcomes)


def _check(case: Case, check: Check, left: list[str], share: float, opened: set[str]) -> float:
    parts = off(case.machine, set(check.reach))
    total = share * (check.minutes + _open_minutes(case.machine, parts - opened))
    for outcome in range(len(check.outcomes)):
        shows = [h for h in left if check.sees[h] == outcome]
        if shows and outcome not in check.cured:
            total += _least(case, shows, opened | parts)
    return total


def _open_minutes(machine: Machine, parts: set[str]) -> float:
    return sum(machine.parts[p].off_minutes + machine.parts[p].on_minutes for p in parts)


def off(machine: Machine, parts: set[str]) -> set[str]:
    """The parts and everything in front of them."""
    result = set(parts)
    for part in parts:
        result |= off(machine, set(machine.parts[part].behind))
    return result


def remedy_parts(machine: Machine, remedy: Remedy) -> tuple[set[str], set[str]]:
    """Parts off and settings made, by adding what follows until nothing is added."""
    parts, settings = set(remedy.renew) | set(remedy.reach), set(remedy.set)
    while True:
        size = len(parts) + len(settings)
        for setting in list(settings):
            parts |= set(machine.settings[setting].reach)
            settings |= set(machine.settings[setting].disturbs)
        parts = off(machine, parts)
        for part in parts:
            settings |= set(machine.parts[part].disturbs)
        if len(parts) + len(settings) == size:
            return parts, settings


def _remedy_minutes(case: Case, remedy: Remedy, opened: set[str]) -> float:
    parts, settings = remedy_parts(case.machine, remedy)
    return (
        _open_minutes(case.machine, parts - opened)
        + sum(case.machine.settings[s].minutes for s in settings)
        + remedy.minutes
        + case.proving_minutes
    )
