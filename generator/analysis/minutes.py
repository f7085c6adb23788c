"""What counts as minutes: the one place that says it, for checks, remedies, flows, plans and quotes.

- Every part that is newly opened for a check or a remedy, with all that it is behind, takes its
  off minutes and its on minutes, once: what is opened must be closed once at the end. What is off
  already costs nothing more.
- A check takes its own minutes, and what it opens.
- A job ends in the closing tests that the machine can sew, each at its own minutes (`closing`);
  without any, in a proving sew.
- A remedy takes what it opens; every setting that it makes and every setting that it upsets,
  directly or through another, once, those merely upset at the minutes of reading them and the
  share in which they are found out (`Machine.found_out`) of making them; its own minutes, for cleaning and advice; and a proving sew
  after it, also where it is the last.
- Where a mains part is renewed or opened, the earth and insulation tests before power, once.
- Waiting is within the minutes of the work that waits, and counts; `waiting` says how much of a plan it is.
- Renewing a part has no minutes of its own: they are the part's off and on.

generator/assets/js/bench/minutes.js says the same to the browser, and is tested against this.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import fsum

from generator.analysis.machine import Machine, MachineWait, Remedy, Work

NOTHING: frozenset[str] = frozenset()


def opening(machine: Machine, parts: Iterable[str], already: frozenset[str] = NOTHING) -> float:
    """To take the parts off and put them on again, each once, but for those off already.

    The parts are taken as they are: what they are behind is `Machine.way_in`.

    >>> from generator.analysis.machine import MachinePart
    >>> machine = Machine({"cover": MachinePart("cover", (), 2, 3), "gear": MachinePart("gear", ("cover",), 6, 6)})
    >>> opening(machine, ["cover", "gear"]), opening(machine, ["cover", "gear"], frozenset({"cover"}))
    (17.0, 12.0)
    """
    return fsum(machine.parts[p].off_minutes + machine.parts[p].on_minutes for p in sorted(set(parts) - already))


def settings(machine: Machine, made: Iterable[str], read: frozenset[str] = NOTHING) -> float:
    """To make the settings, each once; those `read` first only if they are out."""
    return fsum(setting(machine, s, s in read) for s in sorted(made))


def setting(machine: Machine, made: str, read: bool) -> float:
    """To make a setting, or to read it first: then expected minutes.

    >>> from generator.analysis.machine import MachineSetting
    >>> machine = Machine(settings={"timing": MachineSetting("timing", 20, read_minutes=4)}, found_out=0.25)
    >>> setting(machine, "timing", False), setting(machine, "timing", True)
    (20, 9.0)
    """
    own = machine.settings[made]
    return own.minutes if not read or own.read_minutes is None else own.read_minutes + machine.found_out * own.minutes


def check(machine: Machine, own: float, reach: Iterable[str], already: frozenset[str] = NOTHING) -> float:
    """A check with what it opens. `own`: its minutes without opening; `reach`: parts out of its way."""
    return own + opening(machine, machine.way_in(reach), already)


def but_for_opening(machine: Machine, remedy: Remedy, work: Work, proving: float) -> float:
    """A remedy whose parts are all off: settings, its own minutes, the tests before power, the proving sew."""
    return settings(machine, work.settings, work.read) + remedy.minutes + tests(machine, remedy) + proving


def tests(machine: Machine, remedy: Remedy) -> float:
    """Earth and insulation, before power."""
    return machine.mains_test if machine.tested(remedy) else 0.0


def waiting(waits: Iterable[MachineWait | None]) -> float:
    """Of the minutes of several pieces of work, those in which the machine stands and the hands are free.

    >>> waiting([MachineWait(10, "the oil creeps in"), None])
    10.0
    """
    return fsum(wait.minutes for wait in waits if wait)


def closing(tests: Iterable[float], proving: float) -> float:
    """What a job ends in: all its closing tests, or one proving sew where there are none.

    >>> closing([2, 1, 1], 2), closing([], 2)
    (4.0, 2)
    """
    return fsum(tests) or proving


def remedy(machine: Machine, remedy: Remedy, proving: float, already: frozenset[str] = NOTHING) -> float:
    """A remedy from here. With nothing off: the whole job, from a closed machine to a proved one.

    >>> from generator.analysis.machine import MachinePart, MachineSetting
    >>> machine = Machine({"cover": MachinePart("cover", (), 2, 2), "gear": MachinePart("gear", ("cover",), 6, 6, ("timing",))},
    ...                   {"timing": MachineSetting("timing", 20)})
    >>> renewing = Remedy("renew-gear", renew=("gear",))
    >>> remedy(machine, renewing, 2), remedy(machine, renewing, 2, frozenset({"cover"}))
    (38.0, 34.0)
    """
    work = machine.work(remedy)
    return but_for_opening(machine, remedy, work, proving) + opening(machine, work.parts, already)
