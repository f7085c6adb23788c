"""The order of settings, fitted to what is off while each is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.analysis.job.precedence import earlier
from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.machine import Machine


@dataclass(frozen=True, slots=True)
class Making:
    """One setting made, and how the machine stands for it."""

    setting: str
    held_off: frozenset[str]
    "Parts off while it is made: its own reach and that of the settings still to come, with all in front."
    despite: tuple[tuple[str, str], ...]
    "Parts off although taking them off upsets this setting, each with the later setting that needs it off."


@dataclass(frozen=True, slots=True)
class _Openings:
    """What each setting made needs off, and what it is measured on."""

    off: Mapping[str, frozenset[str]]
    "Its reach and all that stands in front of that."
    on: Mapping[str, frozenset[str]]
    "Parts off in this plan that upset it, but for those that its own reach has off."


def makings(
    machine: Machine, made: Iterable[str], parts_off: Iterable[str], practice: Practice
) -> tuple[Making, ...]:
    """The settings in an order that keeps the records' word and never takes a part off again.

    The rule, strongest first:

    1. Each setting comes after what it follows and after all that disturbs it (`earlier`).
    2. It is made with its reach off, and with every part on whose removal upsets it: a setting that
       needs such a part off is made before. Where the reach itself has the part off, the reach wins.
    3. It is made with everything else on, too: settings that need a cover off come first, those
       without a reach after the covers are on. A needle upsets no timing, yet timing is read
       against it, so what can be on is on, even at the price of a turn of the machine.
    4. Among those that are free to be made, the one with the machine lying as it does; then by id.

    Parts stay off until the last setting that needs them off, and no longer. Where 2 would close a
    round with 1 or with another setting's 2, it gives way and `despite` says so: no order exists
    that keeps it, since taking the part off once more would upset the setting once more. Where 3
    would, it gives way silently.

    Raises ValueError naming the round if 1 cannot be kept. Time O(n^3) for n settings.

    >>> from generator.analysis.machine import Part, Setting
    >>> m = Machine({"cover": Part("cover")},
    ...             {"timing": Setting("timing", reach=("cover",)), "belt": Setting("belt")})
    >>> [(x.setting, sorted(x.held_off)) for x in makings(m, ["belt", "timing"], ["cover"], Practice())]
    [('timing', ['cover']), ('belt', [])]
    """
    made = sorted(made)
    openings = _openings(machine, made, frozenset(parts_off))
    later = _later(machine, made, openings)
    order = _order(made, later, practice)
    return tuple(_making(n, order, openings) for n in range(len(order)))


def _openings(machine: Machine, made: list[str], parts_off: frozenset[str]) -> _Openings:
    off = {s: machine.way_in(machine.settings[s].reach) for s in made}
    upset_by = {s: {p for p in parts_off if s in machine.parts[p].disturbs} for s in made}
    return _Openings(off, {s: frozenset(upset_by[s] - off[s]) for s in made})


def _later(machine: Machine, made: list[str], openings: _Openings) -> dict[str, set[str]]:
    """For each setting all that is made after it, by rules 1 to 3."""
    later: dict[str, set[str]] = {s: set() for s in made}
    for setting, before in earlier(machine, made).items():
        for first in before:
            later[first].add(setting)
    for first, then in (*_measured_on(made, openings), *_rather_closed(made, openings)):
        _add_unless_round(later, first, then)
    return later


def _measured_on(made: list[str], openings: _Openings) -> Iterator[tuple[str, str]]:
    for first in made:
        for then in made:
            if openings.off[first] & openings.on[then]:
                yield first, then


def _rather_closed(made: list[str], openings: _Openings) -> list[tuple[str, str]]:
    """Pairs where the first needs parts off that the second does not; most parts first."""
    off = openings.off
    pairs = [(-len(off[a] - off[b]), a, b) for a in made for b in made if off[a] - off[b]]
    return [(a, b) for _, a, b in sorted(pairs)]


def _add_unless_round(later: dict[str, set[str]], first: str, then: str) -> None:
    """Keep `later` closed: whatever comes before `first` comes before all that follows `then`."""
    if first == then or first in later[then] or then in later[first]:
        return
    follow = {then} | later[then]
    for setting, after in later.items():
        if setting == first or first in after:
            after |= follow


def _order(made: list[str], later: Mapping[str, set[str]], practice: Practice) -> list[str]:
    order: list[str] = []
    position, left = UPRIGHT, set(made)
    while left:
        waiting = set().union(*(later[s] for s in left))
        ready = sorted(left - waiting)
        chosen = min(ready, key=lambda s: practice.setting(s).position != position)
        order.append(chosen)
        position = practice.setting(chosen).position
        left.remove(chosen)
    return order


def _making(n: int, order: list[str], openings: _Openings) -> Making:
    setting, coming = order[n], order[n:]
    held = frozenset().union(*(openings.off[s] for s in coming))
    despite = (
        (part, next(s for s in coming if part in openings.off[s]))
        for part in sorted(held & openings.on[setting])
    )
    return Making(setting, held, tuple(despite))
