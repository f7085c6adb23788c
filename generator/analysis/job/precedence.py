"""Which setting waits for which: what the records demand."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping

from generator.analysis.machine import Machine
from generator.graph import beyond


def earlier(machine: Machine, made: Iterable[str]) -> dict[str, frozenset[str]]:
    """For each setting made, those of the others that must be made before it.

    A setting is made after what it follows (`after`), also where the one between is not made this
    time, and after every setting made that disturbs it. Time O(settings made x relations).

    Raises ValueError naming the whole round if a setting would have to be made before itself.

    >>> from generator.analysis.machine import MachineSetting
    >>> m = Machine(settings={"height": MachineSetting("height"), "timing": MachineSetting("timing", after=("height",)),
    ...                       "gap": MachineSetting("gap", after=("timing",))})
    >>> sorted(earlier(m, ["gap", "height"])["gap"])
    ['height']
    """
    made = frozenset(made)
    direct = _direct(machine, made)
    found = {s: beyond(s, direct.__getitem__) for s in sorted(made)}
    for setting, before in found.items():
        if setting in before:
            raise ValueError(_round(machine, direct, setting))
    return {s: before & made for s, before in found.items()}


def _direct(machine: Machine, made: frozenset[str]) -> dict[str, tuple[str, ...]]:
    """Settings directly before each one; only what is made disturbs anything."""
    before = {id: set(setting.after) for id, setting in machine.settings.items()}
    for disturber in made:
        for disturbed in machine.settings[disturber].disturbs:
            before[disturbed].add(disturber)
    return {id: tuple(sorted(them)) for id, them in before.items()}


def _round(machine: Machine, direct: Mapping[str, tuple[str, ...]], start: str) -> str:
    path = [start, *_way_back(direct, start)]
    hops = [_hop(machine, later, first) for later, first in itertools.pairwise(path)]
    return f"settings wait for each other: {', '.join(hops)}"


def _way_back(direct: Mapping[str, tuple[str, ...]], start: str) -> list[str]:
    """The shortest way from a setting through what is before it to itself again."""
    came: dict[str, str] = {}
    queue = [start]
    for setting in queue:
        for before in direct[setting]:
            if before not in came:
                came[before] = setting
                queue.append(before)
    back = [start]
    while came[back[0]] != start:
        back.insert(0, came[back[0]])
    return back


def _hop(machine: Machine, later: str, first: str) -> str:
    if first in machine.settings[later].after:
        return f"{later} is made after {first}"
    return f"{later} is upset by {first}"
