"""The order of settings, fitted to what is off while each is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.analysis.job.needs import Needs, needs, wishes
from generator.analysis.job.precedence import earlier
from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.job.way_out import Task, way_out
from generator.analysis.machine import Machine


@dataclass(frozen=True, slots=True)
class Making:
    """One setting made, and how the machine stands for it."""

    setting: str
    held_off: frozenset[str]
    "Parts off while it is made: its own reach and that of the settings still to come, with all in front."
    despite: tuple[tuple[str, str], ...]
    """Parts off although this setting should be made with them on, each with the later setting that needs
    it off; empty if none does."""


@dataclass(frozen=True, slots=True)
class Proving:
    """A check that proves the settings made, done as soon as what it needs is on and off."""

    check: str
    off: tuple[str, ...] = ()
    "Parts off although it needs them on: no order brings that about."
    in_the_way: tuple[str, ...] = ()
    "Parts on although it needs them off."


@dataclass(frozen=True, slots=True)
class TakingOff:
    """A part taken off on the way out, for a setting or check that needs it off."""

    part: str


@dataclass(frozen=True, slots=True)
class Back:
    """The way out in order, and its cost beside other ways out."""

    done: tuple[str | Making | Proving | TakingOff, ...]
    "A part's id: it is refitted."
    given_up: int
    "How many times less was wanted on (`needs.wishes`), since no order brought it all about."
    extra: int
    "Minutes of parts off and on more than once, in ten-thousandths."
    turns: int


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
    still_on: Iterable[str] = (),
) -> Back | None:
    """Parts to refit and settings to make and prove, in an order that keeps the records' word.

    `parts_off` stand as they came off; those of them that are `still_on` wait until they are needed
    off. `lies` is how the machine lies after the work. The rule, strongest first:

    1. Each setting comes after what it follows and after all that disturbs it (`earlier`).
    2. What is made under power comes after all that is made by hand: until then the machine may
       strike itself.
    3. It is made with its reach off, and with every part on that it is made with (`MachineSetting.on`).
    4. With every part on, too, whose removal upsets it: a setting that needs such a part off is
       made before. Where the reach itself has the part off, the reach wins.
    5. It is made with everything else on, too: of two settings, one that needs all off that the
       other needs and more comes first, unless the other names what it is made with. A needle
       upsets no timing, yet timing is read against it.
    6. What that leaves open is settled by minutes, then by turns of the machine (`way_out`), and
       what is free is made in the trade's order.

    A part may go on for one setting and come off again for the next. Where 2 would close a round
    with 1, it gives way. Where 4 would, with those or with another setting's 4, it gives way and `despite` says so: no order exists that
    keeps it, since taking the part off once more would upset the setting once more. So does 3,
    where no order brings about what the settings need on. Where 5 would, it gives way silently.

    None: what is still on cannot wait. Raises ValueError naming the round if 1 cannot be kept.

    >>> from generator.analysis.machine import MachinePart, MachineSetting
    >>> m = Machine({"plate": MachinePart("plate", (), 1, 1)}, {"centring": MachineSetting("centring", on=("plate",)),
    ...             "timing": MachineSetting("timing", after=("centring",), reach=("plate",))})
    >>> back = refits_and_makings(m, ["centring", "timing"], ["plate"], Practice())
    >>> [getattr(x, "setting", getattr(x, "part", x)) for x in back.done]
    ['plate', 'centring', 'plate', 'timing', 'plate']
    """
    made = sorted(made)
    openings = _openings(machine, made, frozenset(parts_off))
    later = _later(machine, made, openings, practice.live)
    off = frozenset(parts_off).difference(still_on)
    whole = needs(machine, openings.off, later, parts_off, practice)
    for given_up, wish in enumerate(wishes(machine, openings.off, later, parts_off, practice)):
        found = way_out(machine, parts_off, off, wish, practice, lies)
        if found is not None:
            return Back(_told(found.tasks, openings, whole, off), given_up, found.extra, found.turns)
    return None


def _openings(machine: Machine, made: list[str], parts_off: frozenset[str]) -> _Openings:
    off = {s: machine.way_in(machine.settings[s].reach) for s in made}
    upset_by = {s: {p for p in parts_off if s in machine.parts[p].disturbs} for s in made}
    return _Openings(off, {s: frozenset(upset_by[s] - off[s]) for s in made})


def _later(
    machine: Machine, made: list[str], openings: _Openings, live: frozenset[str]
) -> dict[str, set[str]]:
    """For each setting all that is made after it, by rules 1 to 5."""
    later: dict[str, set[str]] = {s: set() for s in made}
    for setting, before in earlier(machine, made).items():
        for first in before:
            later[first].add(setting)
    free = [s for s in made if not machine.settings[s].on]
    by_hand_first = [(a, b) for a in made if a not in live for b in made if b in live]
    for first, then in (*by_hand_first, *_measured_on(made, openings), *_rather_closed(made, free, openings)):
        _add_unless_round(later, first, then)
    return later


def _measured_on(made: list[str], openings: _Openings) -> Iterator[tuple[str, str]]:
    for first in made:
        for then in made:
            if openings.off[first] & openings.on[then]:
                yield first, then


def _rather_closed(made: list[str], free: list[str], openings: _Openings) -> list[tuple[str, str]]:
    """Pairs where the first needs all parts off that the second, a free one, does, and more; most parts first."""
    off = openings.off
    pairs = [(-len(off[a] - off[b]), a, b) for a in made for b in free if off[a] > off[b]]
    return [(a, b) for _, a, b in sorted(pairs)]


def _add_unless_round(later: dict[str, set[str]], first: str, then: str) -> None:
    """Keep `later` closed: whatever comes before `first` comes before all that follows `then`."""
    if first == then or first in later[then] or then in later[first]:
        return
    follow = {then} | later[then]
    for setting, after in later.items():
        if setting == first or first in after:
            after |= follow


def _told(
    tasks: Sequence[Task], openings: _Openings, whole: Needs, off: frozenset[str]
) -> tuple[str | Making | Proving | TakingOff, ...]:
    """The tasks with what each setting and check is done despite of, replayed from the parts off."""
    coming = [task.id for task in tasks if task.do == "set"]
    now, told = set(off), list[str | Making | Proving | TakingOff]()
    for task in tasks:
        if task.do == "refit":
            now.discard(task.id)
            told.append(task.id)
        elif task.do == "take off":
            now.add(task.id)
            told.append(TakingOff(task.id))
        elif task.do == "check":
            key = task.do, task.id
            told.append(Proving(task.id, tuple(sorted(whole.on[key] & now)), tuple(sorted(whole.off[key] - now))))
        else:
            told.append(_making(coming, openings, whole, now))
            coming = coming[1:]
    return tuple(told)


def _making(coming: list[str], openings: _Openings, whole: Needs, now: set[str]) -> Making:
    setting = coming[0]
    held = frozenset().union(*(openings.off[s] for s in coming))
    rather_on = openings.on[setting] | whole.on["set", setting]
    despite = tuple(
        (part, next((s for s in coming if part in openings.off[s]), "")) for part in sorted(now & rather_on)
    )
    return Making(setting, held, despite)
