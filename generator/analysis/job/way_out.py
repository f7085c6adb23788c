"""The way out: parts refitted and settings made in an order that turns the machine over as little as it can."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.machine import Machine
from generator.graph import beyond


@dataclass(frozen=True, slots=True)
class Task:
    """A part to refit or a setting to make."""

    do: Literal["refit", "set", "sew"]
    id: str
    position: str
    "How the machine lies for it."


@dataclass(frozen=True, slots=True)
class _Bench:
    """The tasks by number, the preferred first, and what each waits for, by bits."""

    tasks: tuple[Task, ...]
    first: tuple[int, ...]
    "Tasks that must be done before each."
    off: tuple[int, ...]
    "Refits of what each needs off; 0 for a refit."
    refits: int
    measured_on: int
    "Refits of parts that are no covers: what a setting is read against."

    def ready(self, done: int) -> Iterator[int]:
        """Tasks that can be done next: a setting waits for all parts but covers that none needs off any more."""
        left = [n for n in range(len(self.tasks)) if not done >> n & 1]
        needed_off = 0
        for n in left:
            needed_off |= self.off[n]
        idle = self.measured_on & ~done & ~needed_off
        for n in left:
            if not self.first[n] & ~done and (self.refits >> n & 1 or not idle):
                yield n


_Ways = dict[tuple[int, str], tuple[int, ...]]
"Tasks done (a bit for each) and how the machine lies -> the tasks in order; the smaller is the better."


def way_out(
    machine: Machine,
    order: Sequence[str],
    off: Mapping[str, frozenset[str]],
    later: Mapping[str, set[str]],
    practice: Practice,
    lies: str = UPRIGHT,
) -> tuple[Task, ...]:
    """Refit and set from how the machine lies until it stands upright for the proving sew.

    `order` are the parts as they came off, `off` what each setting needs off, `later` what is made
    after each. All that can be done as the machine lies is done before it is turned: parts first,
    the last off first; then settings, by `rank`, then by id. A cover that no setting needs off any
    more (`is_cover`) may stay off until the machine next lies right for it; any other part goes on
    before the next setting, even at the price of a turn: a needle upsets no timing, yet timing is
    read against it. Of the orders made so, one with the
    fewest turns is taken, by breadth-first search over where to turn next; ties by that preference.
    Time O(tasks^2) for each run between two turns that is tried.

    >>> from generator.analysis.job.types import SettingHandling
    >>> from generator.analysis.machine import Setting
    >>> m = Machine(settings={s: Setting(s) for s in ("belt", "gap", "timing")})
    >>> back = Practice(settings={s: SettingHandling("on-its-back") for s in ("belt", "timing")})
    >>> later = {"belt": set(), "gap": {"timing"}, "timing": set()}
    >>> [t.id for t in way_out(m, (), dict.fromkeys(later, frozenset()), later, back)]
    ['gap', 'belt', 'timing']
    """
    bench = _bench(_tasks(machine, order, later, practice), machine, off, later, practice)
    done = _run(bench, (), lies)
    ways: _Ways = {(_bits(done), lies): done}
    while not (found := [way for way in ways.values() if len(way) == len(bench.tasks)]):
        ways = _turned_once_more(bench, ways)
    return tuple(bench.tasks[n] for n in min(found)[:-1])


def rank(machine: Machine, setting: str) -> int:
    """How many settings of the whole machine come before one by `after`, directly or through another.

    The trade's order as the records hold it, also between settings that do not wait for each other.
    """
    return len(beyond(setting, lambda one: machine.settings[one].after))


def is_cover(machine: Machine, practice: Practice, part: str) -> bool:
    """Whether no setting is read against a part: it neither wears, nor is oiled, nor upsets anything."""
    handled = practice.part(part)
    return not (handled.wears or handled.oil or machine.parts[part].disturbs)


def _tasks(
    machine: Machine, order: Sequence[str], later: Mapping[str, set[str]], practice: Practice
) -> tuple[Task, ...]:
    settings = sorted(later, key=lambda s: (rank(machine, s), s))
    return (
        *(Task("refit", part, practice.part(part).on_position) for part in reversed(order)),
        *(Task("set", setting, practice.setting(setting).position) for setting in settings),
        Task("sew", "", UPRIGHT),
    )


def _bench(
    tasks: tuple[Task, ...],
    machine: Machine,
    off: Mapping[str, frozenset[str]],
    later: Mapping[str, set[str]],
    practice: Practice,
) -> _Bench:
    def before(one: Task, other: Task) -> bool:
        """Whether one must be done before the other, whatever else is done."""
        if other.do == "sew":
            return one.do != "sew"
        if one.do == "set":
            return other.id in (off if other.do == "refit" else later)[one.id]
        return one.do == other.do == "refit" and other.id in machine.parts[one.id].behind

    def bits(of: Iterable[bool]) -> int:
        return sum(1 << n for n, holds in enumerate(of) if holds)

    return _Bench(
        tasks,
        tuple(bits(before(one, task) for one in tasks) for task in tasks),
        tuple(
            bits(t.do == "refit" and t.id in off[task.id] for t in tasks) if task.do == "set" else 0 for task in tasks
        ),
        bits(task.do == "refit" for task in tasks),
        bits(task.do == "refit" and not is_cover(machine, practice, task.id) for task in tasks),
    )


def _run(bench: _Bench, done: tuple[int, ...], lies: str) -> tuple[int, ...]:
    """All that can be done as the machine lies, the preferred first."""
    while True:
        ready = bench.ready(_bits(done))
        then = next((n for n in ready if bench.tasks[n].position == lies), None)
        if then is None:
            return done
        done = (*done, then)


def _turned_once_more(bench: _Bench, ways: _Ways) -> _Ways:
    further: _Ways = {}
    for (bits, lies), done in ways.items():
        for position in sorted({bench.tasks[n].position for n in bench.ready(bits)} - {lies}):
            then = _run(bench, done, position)
            state = _bits(then), position
            further[state] = min(then, further.get(state, then))
    return further


def _bits(done: Iterable[int]) -> int:
    return sum(1 << n for n in done)
