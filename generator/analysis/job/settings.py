"""The order of settings, fitted to what is off while each is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.job.precedence import earlier
from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.job.way_out import way_out
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


def refits_and_makings(
    machine: Machine,
    made: Iterable[str],
    parts_off: Sequence[str],
    practice: Practice,
    lies: str = UPRIGHT,
) -> tuple[str | Making, ...]:
    """Parts to refit and settings to make, in an order that keeps the records' word.

    No part is taken off again. `parts_off` stand as they came off; `lies` is how the machine lies after the work. The rule,
    strongest first:

    1. Each setting comes after what it follows and after all that disturbs it (`earlier`).
    2. It is made with its reach off, and with every part on whose removal upsets it: a setting that
       needs such a part off is made before. Where the reach itself has the part off, the reach wins.
    3. It is made with everything else on, too: of two settings, one that needs all off that the
       other needs and more comes first. A needle upsets no timing, yet timing is read against it.
    4. Refits and settings together turn the machine over as seldom as that allows (`way_out`), and
       what is free is made in the trade's order.

    Parts stay off until the last setting that needs them off, and no longer, but for a cover that
    would cost a turn of its own. Where 2 would close a
    round with 1 or with another setting's 2, it gives way and `despite` says so: no order exists
    that keeps it, since taking the part off once more would upset the setting once more. Where 3
    would, it gives way silently.

    Raises ValueError naming the round if 1 cannot be kept. Time O(n^3) for n settings, and that of
    `way_out`.

    >>> from generator.analysis.machine import Part, Setting
    >>> m = Machine({"cover": Part("cover")},
    ...             {"timing": Setting("timing", reach=("cover",)), "belt": Setting("belt")})
    >>> [getattr(x, "setting", x) for x in refits_and_makings(m, ["belt", "timing"], ["cover"], Practice())]
    ['timing', 'cover', 'belt']
    """
    made = sorted(made)
    openings = _openings(machine, made, frozenset(parts_off))
    later = _later(machine, made, openings)
    tasks = way_out(machine, parts_off, openings.off, later, practice, lies)
    order = [task.id for task in tasks if task.do == "set"]
    making = {s: _making(order[n:], openings) for n, s in enumerate(order)}
    return tuple(task.id if task.do == "refit" else making[task.id] for task in tasks)


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
    """Pairs where the first needs all parts off that the second does, and more; most parts first."""
    off = openings.off
    pairs = [(-len(off[a] - off[b]), a, b) for a in made for b in made if off[a] > off[b]]
    return [(a, b) for _, a, b in sorted(pairs)]


def _add_unless_round(later: dict[str, set[str]], first: str, then: str) -> None:
    """Keep `later` closed: whatever comes before `first` comes before all that follows `then`."""
    if first == then or first in later[then] or then in later[first]:
        return
    follow = {then} | later[then]
    for setting, after in later.items():
        if setting == first or first in after:
            after |= follow


def _making(coming: list[str], openings: _Openings) -> Making:
    held = frozenset().union(*(openings.off[s] for s in coming))
    despite = (
        (part, next(s for s in coming if part in openings.off[s]))
        for part in sorted(held & openings.on[coming[0]])
    )
    return Making(coming[0], held, tuple(despite))
