"""What else is worth renewing while the machine is open."""

from __future__ import annotations

from collections.abc import Iterable

from generator.analysis import minutes
from generator.analysis.job.types import Practice, Weights, WhileOpen
from generator.analysis.machine import Machine, Remedy, Work


def while_open(
    machine: Machine, practice: Practice, remedy: Remedy, weights: Weights
) -> tuple[WhileOpen, ...]:
    """Wearing parts that `remedy` does not renew but lays within reach, most minutes saved first.

    Within reach: all that the part is behind is off already. Extra minutes are what the plan grows
    by if the part is renewed as well: its own off and on if it stays on now, the settings that it
    newly upsets, and what those need off. Later minutes are its whole job from a closed machine,
    proving sew included. Ties by id. In minutes.

    >>> from generator.analysis.job.types import Handling
    >>> from generator.analysis.machine import MachinePart
    >>> m = Machine({"cover": MachinePart("cover", (), 2, 2), "gear": MachinePart("gear", ("cover",), 6, 6),
    ...              "pinion": MachinePart("pinion", ("cover",), 3, 3)})
    >>> worn = Practice({"pinion": Handling(wears=True)})
    >>> [(w.part, w.extra_minutes, w.later_minutes) for w in while_open(m, worn, Remedy("r", renew=("gear",)), Weights())]
    [('pinion', 6.0, 12.0)]
    """
    now = machine.work(remedy)
    found = [
        _weighed(machine, remedy, machine.tested(remedy), part, weights)
        for part in _within_reach(machine, now, practice)
        if part not in remedy.renew
    ]
    return tuple(sorted(found, key=lambda w: (-round(w.saved_minutes, 6), w.part)))


def _within_reach(machine: Machine, now: Work, practice: Practice) -> Iterable[str]:
    return (
        id
        for id, part in machine.parts.items()
        if practice.part(id).wears and now.parts.issuperset(part.behind)
    )


def _weighed(machine: Machine, now: Remedy, tested: bool, part: str, weights: Weights) -> WhileOpen:
    renewing = Remedy(part, renew=(part,))
    tests = minutes.tests(machine, renewing)
    both = Remedy(part, (*now.renew, part), now.set, now.reach)
    extra = _minutes(machine, machine.work(both)) - _minutes(machine, machine.work(now)) + (0 if tested else tests)
    own = machine.work(renewing)
    return WhileOpen(part, extra, _minutes(machine, own) + tests + weights.proving_minutes)


def _minutes(machine: Machine, work: Work) -> float:
    return minutes.opening(machine, work.parts) + minutes.settings(machine, work.settings, work.read)
