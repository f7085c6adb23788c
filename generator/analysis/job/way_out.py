"""The way out: parts refitted, settings made and proved, at the least cost in minutes and turns."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.analysis.job.needs import Needs, proofs
from generator.analysis.job.path import Bench, PathJob, PathPart, State, least_path
from generator.analysis.job.types import UPRIGHT, Practice
from generator.analysis.machine import Machine
from generator.graph import beyond


@dataclass(frozen=True, slots=True)
class Task:
    """A part to refit or to take off once more, a setting to make, a check to prove it, the proving sew."""

    do: Literal["refit", "take off", "set", "check", "sew"]
    id: str
    position: str
    "How the machine lies for it; empty for a check that is done as it lies."


@dataclass(frozen=True, slots=True)
class WayOut:
    """The tasks in order, the proving sew left out, and what they cost."""

    tasks: tuple[Task, ...]
    extra: int
    "Minutes of parts off and on more than once, in ten-thousandths."
    turns: int


def way_out(
    machine: Machine, order: Sequence[str], off: Iterable[str], needs: Needs, practice: Practice, lies: str = UPRIGHT
) -> WayOut | None:
    """From how the machine lies, with `off` of the parts `order` off, to all set, proved, on and upright.

    Minutes first, then turns (`path.least_path`). All that can be done as the machine lies is done
    before it is turned: checks as soon as their settings are made (those under power, all that is
    set by hand), then parts, the last of `order`
    first, then settings, by `rank`, then by id. A cover that no setting needs off any more
    (`is_cover`) may stay off until the machine next lies right for it; any other part goes on
    before the next setting that does not say what it is made with, even at the price of a turn: a needle upsets no timing, yet timing is
    read against it. A check comes before what is made after all the settings that it
    proves. A part comes off once more only while all that it upsets is still to be made.

    None: what the jobs need on and off cannot be brought about.

    >>> from generator.analysis.job.types import SettingHandling
    >>> from generator.analysis.machine import MachineSetting
    >>> m = Machine(settings={s: MachineSetting(s) for s in ("belt", "gap", "timing")})
    >>> back = Practice(settings={s: SettingHandling("on-its-back") for s in ("belt", "timing")})
    >>> later = {"belt": set(), "gap": {"timing"}, "timing": set()}
    >>> [t.id for t in way_out(m, (), (), Needs({}, {}, later), back).tasks]
    ['gap', 'belt', 'timing']
    """
    parts = tuple(reversed(order))
    jobs = _jobs(machine, needs.later, practice)
    bench = _bench(machine, parts, jobs, needs, practice)
    there = {part: 1 << n for n, part in enumerate(parts)}
    end = least_path(bench, State(0, sum(there[p] for p in set(off)), lies))
    if end is None:
        return None
    refits = (Task("refit", p, practice.part(p).on_position) for p in parts)
    again = (Task("take off", p, practice.part(p).off_position) for p in parts)
    tasks = (*refits, *jobs, *again)
    return WayOut(tuple(tasks[n] for n in end.order[:-1]), end.extra, end.turns)


def rank(machine: Machine, setting: str) -> int:
    """How many settings of the whole machine come before one by `after`, directly or through another.

    The trade's order as the records hold it, also between settings that do not wait for each other.
    """
    return len(beyond(setting, lambda one: machine.settings[one].after))


def is_cover(machine: Machine, practice: Practice, part: str) -> bool:
    """Whether no setting is read against a part: it neither wears, nor is oiled, nor upsets anything."""
    handled = practice.part(part)
    return not (handled.wears or handled.oil or machine.parts[part].disturbs)


def _jobs(machine: Machine, later: Mapping[str, set[str]], practice: Practice) -> tuple[Task, ...]:
    settings = sorted(later, key=lambda s: (rank(machine, s), s))
    return (
        *(Task("set", setting, practice.setting(setting).position) for setting in settings),
        *(Task("check", check, practice.proofs.get(check, "")) for check in sorted(proofs(later, practice))),
        Task("sew", "", UPRIGHT),
    )


def _bench(
    machine: Machine, parts: Sequence[str], jobs: Sequence[Task], needs: Needs, practice: Practice
) -> Bench:
    there = {part: 1 << n for n, part in enumerate(parts)}
    job_bit = {(job.do, job.id): 1 << n for n, job in enumerate(jobs)}
    shared = proofs(needs.later, practice)

    def before(one: Task, other: Task) -> bool:
        return _before(one, other, needs.later, shared, practice.live)

    def bits(ids: Iterable[str]) -> int:
        return sum(there[p] for p in set(ids) if p in there)

    def part(id: str) -> PathPart:
        handled, own = practice.part(id), machine.parts[id]
        inside = bits(p for p in parts if id in machine.parts[p].behind)
        upsets = sum(job_bit.get(("set", s), 0) for s in set(own.disturbs))
        cost = max(1, round(own.off_minutes * 10_000) + round(own.on_minutes * 10_000))
        against = not is_cover(machine, practice, id)
        return PathPart(
            there[id], handled.on_position, handled.off_position, bits(own.behind), inside, cost, upsets, against
        )

    def job(task: Task) -> PathJob:
        first = sum(bit for key, bit in job_bit.items() if before(Task(*key, ""), task))
        on = parts if task.do == "sew" else needs.on.get((task.do, task.id), ())
        return PathJob(
            job_bit[task.do, task.id], first, bits(needs.off.get((task.do, task.id), ())), bits(on), task.position,
            task.do == "set", task.do == "set" and not machine.settings[task.id].on,
        )  # fmt: skip

    return Bench(tuple(map(part, parts)), tuple(map(job, jobs)))


def _before(
    one: Task,
    other: Task,
    later: Mapping[str, set[str]],
    shared: Mapping[str, frozenset[str]],
    live: frozenset[str],
) -> bool:
    """Whether one job is done before the other, whatever else is done.

    A check under power comes after every setting made by hand: until then the machine may strike itself.
    """
    if other.do == "sew":
        return one.do != "sew"
    if one.do == "sew":
        return False
    if one.do == "set":
        if other.do == "check":
            return one.id in shared[other.id] or (other.id in live and one.id not in live)
        return other.id in later[one.id]
    if other.do == "check" or one.id in live:
        return False
    return all(other.id in later[s] for s in shared[one.id])
