"""The way in and the way out together: what comes off before the work, and what waits until a setting needs it off."""

from __future__ import annotations

from collections.abc import Iterator

from generator.analysis.job.needs import wanted_on
from generator.analysis.job.settings import Back, Making, Proving, TakingOff, refits_and_makings
from generator.analysis.job.types import UPRIGHT, Practice, Weights, lies_after
from generator.analysis.job.way_in import WayIn, way_in
from generator.analysis.machine import Machine, Remedy, Work

_Ways = tuple[WayIn, Back]


def least_ways(machine: Machine, whole: Remedy, work: Work, practice: Practice, weights: Weights) -> _Ways:
    """A way in and a way out, the least in minutes, then in turns of the machine, once most is on that should be.

    Five are weighed: all comes off before the work; what a setting or check needs on stays on
    until another needs it off; that, but for parts that then come off before anything needs
    them on; all that the work itself does not need off stays on; and of that, what the machine is
    turned for, with all behind it. The second has the fewest minutes: what the first thing to need
    a part wants on is not taken off for it, and every other part comes off once in any case.

    >>> from generator.analysis.machine import MachinePart, MachineSetting
    >>> m = Machine({"plate": MachinePart("plate", (), 1, 1)}, {"centring": MachineSetting("centring", on=("plate",)),
    ...             "timing": MachineSetting("timing", after=("centring",), reach=("plate",))})
    >>> both = Remedy("r", set=("centring", "timing"))
    >>> way, back = least_ways(m, both, m.work(both), Practice(), Weights())
    >>> way.parts, back.extra
    ((), 0)
    """
    found = list(_weighed(machine, whole, work, practice, weights))
    return min(found, key=lambda ways: (ways[1].given_up, ways[1].extra, ways[0].position_changes + ways[1].turns))


def _weighed(machine: Machine, whole: Remedy, work: Work, practice: Practice, weights: Weights) -> Iterator[_Ways]:
    everything = way_in(machine, work.parts, practice, weights)

    def ways(still_on: frozenset[str]) -> Iterator[_Ways]:
        order = everything if not still_on else way_in(machine, work.parts - still_on, practice, weights)
        lies = lies_after(order.parts, practice)
        parts = (*order.parts, *(p for p in everything.parts if p in still_on))
        back = refits_and_makings(machine, work.settings, parts, practice, lies, still_on)
        if back is not None:
            yield order, back

    yield from ways(frozenset())
    reached = machine.way_in((*whole.renew, *whole.reach))
    waiting = wanted_on(machine, work, practice) - reached
    for second in ways(waiting) if waiting else ():
        yield second
        needed_on = waiting - _off_before_wanted(machine, second[1], waiting)
        if needed_on != waiting:
            yield from ways(frozenset(p for p in waiting if machine.way_in((p,)) & needed_on))
    for late in _late(machine, work.parts - reached, practice):
        yield from ways(late)


def _late(machine: Machine, unreached: frozenset[str], practice: Practice) -> Iterator[frozenset[str]]:
    """What the work itself does not need off: all of it, and what the machine is turned for with all behind that."""
    turned = {p for p in unreached if practice.part(p).off_position not in ("", UPRIGHT)}
    yield from filter(None, (unreached, frozenset(p for p in unreached if machine.way_in((p,)) & turned)))


def _off_before_wanted(machine: Machine, back: Back, waiting: frozenset[str]) -> set[str]:
    """Parts that come off on the way out though nothing before has needed them on."""
    wanted: set[str] = set()
    found: set[str] = set()
    for done in back.done:
        if isinstance(done, Making):
            wanted |= _kept_on(machine, machine.settings[done.setting].on, waiting)
        elif isinstance(done, Proving) and done.check in machine.proofs:
            wanted |= _kept_on(machine, machine.proofs[done.check].on, waiting)
        elif isinstance(done, TakingOff) and done.part not in wanted:
            found.add(done.part)
    return found


def _kept_on(machine: Machine, on: tuple[str, ...], waiting: frozenset[str]) -> set[str]:
    return {p for p in waiting if machine.way_in((p,)).intersection(on)}
