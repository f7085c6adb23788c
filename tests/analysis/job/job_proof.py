"""Proves a plan right or says what is wrong with it, sharing nothing with the planner but the data."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from math import isclose

from generator.analysis.job.types import Plan
from generator.analysis.machine import Machine, Remedy
from tests.analysis.job.job_proof_settings import SETTING_RULES
from tests.analysis.job.job_replay import Replay, in_front, needs_on

Rule = Callable[[Plan, Replay], Iterable[str]]


def faults(plan: Plan, machine: Machine, remedies: Iterable[Remedy]) -> tuple[str, ...]:
    """All that is wrong with a plan for these remedies; empty if it is right.

    The plan is replayed step by step on a closed machine. What is demanded: no step before what it
    needs; each part off once and on once, or once more for what needs it on between; every remedy carried out; every upset
    setting made once, with its reach off, after what it follows and after all that disturbs it;
    nothing left open longer than a setting needs; one proving sew, last; minutes that add up; a
    tray that reads backwards on the way out.

    >>> from generator.analysis.job.types import Step
    >>> from generator.analysis.machine import MachinePart
    >>> m = Machine({"cover": MachinePart("cover")})
    >>> steps = (Step("take off", "cover", "way-in"), Step("renew", "cover", "work"), Step("sew", "", "prove"))
    >>> faults(Plan(steps, (), 0, (), ("cover",), (), (), 0, 0, True), m, [Remedy("r", renew=("cover",))])
    ('cover is left off',)
    """
    replay = Replay(plan, machine, tuple(dict.fromkeys(remedies)))
    strange = tuple(_known(plan, replay))
    if strange:
        return strange
    return tuple(fault for rule in (*RULES, *SETTING_RULES) for fault in rule(plan, replay))


def _known(plan: Plan, replay: Replay) -> Iterator[str]:
    """The other rules look ids up, so a strange one is told first."""
    machine = replay.machine
    names = {"take off": machine.parts, "refit": machine.parts, "renew": machine.parts, "set": machine.settings}
    for step in plan.steps:
        if step.do not in (*names, "remedy", "oil", "check", "test", "sew"):
            yield f"no such thing to do: {step.do}"
        elif step.part not in names.get(step.do, (step.part,)):
            yield f"{step.do} {step.part}: the machine has none"


def _nothing_before_what_it_needs(plan: Plan, replay: Replay) -> Iterator[str]:
    for step, off in replay:
        if step.do == "take off":
            for part in sorted(set(replay.machine.parts[step.part].behind) - off):
                yield f"{step.part} comes off while {part} is in front of it"
        elif step.do == "refit":
            for part in sorted(off):
                if step.part in replay.machine.parts[part].behind:
                    yield f"{step.part} is refitted before {part}, which is behind it"


def _off_and_on_once(plan: Plan, replay: Replay) -> Iterator[str]:
    for step, off in replay:
        if step.do == "refit" and step.part not in off:
            yield f"{step.part} is refitted but is not off"
    taken, refitted = replay.count("take off"), replay.count("refit")
    for part in sorted(taken | refitted):
        if taken[part] > 1 + _put_on_for_something(replay, part):
            yield f"{part} comes off {taken[part]} times"
        if refitted[part] > max(1, taken[part]):
            yield f"{part} is refitted {refitted[part]} times"
        if refitted[part] < taken[part]:
            yield f"{part} is left off"


def _put_on_for_something(replay: Replay, part: str) -> int:
    """How often a part is on for a setting or check that needs it on, between two times off."""
    found, served, off_before = 0, False, False
    for step, off in replay:
        if step.do == "take off" and step.part == part:
            found += served and off_before
            served, off_before = False, True
        elif part not in off and part in needs_on(replay, step):
            served = True
    return found


def _off_for_a_reason(plan: Plan, replay: Replay) -> Iterator[str]:
    made = replay.count("set")
    wanted = {p for r in replay.remedies for p in (*r.renew, *r.reach)}
    wanted |= {p for s in made for p in replay.machine.settings[s].reach}
    for part in sorted(replay.count("take off").keys() - in_front(replay.machine, wanted)):
        yield f"{part} comes off for nothing"


def _remedies_carried_out(plan: Plan, replay: Replay) -> Iterator[str]:
    own = [r for r in replay.remedies if r.minutes or not (r.renew or r.set)]
    yield from _exactly("renew", {p for r in replay.remedies for p in r.renew}, replay)
    yield from _exactly("remedy", Counter(r.id for r in own), replay)
    for step, off in replay:
        if step.do == "renew" and step.part not in off:
            yield f"{step.part} is renewed while it is on"
        for remedy in own if step.do == "remedy" else ():
            if remedy.id == step.part and not off.issuperset(remedy.reach):
                yield f"{remedy.id} is carried out with {', '.join(sorted(set(remedy.reach) - off))} on"


def _exactly(do: str, wanted: Iterable[str], replay: Replay) -> Iterator[str]:
    asked, done = Counter(wanted), replay.count(do)
    for id in sorted(asked | done):
        if asked[id] != done[id]:
            yield f"{do} {id}: asked for {asked[id]}, done {done[id]}"


def _one_proving_sew(plan: Plan, replay: Replay) -> Iterator[str]:
    sewn = [n for n, step in enumerate(plan.steps) if step.do == "sew"]
    if sewn != [len(plan.steps) - 1]:
        yield "a plan ends in one proving sew"


def _tested_before_power(plan: Plan, replay: Replay) -> Iterator[str]:
    wanted = int(any(map(replay.machine.tested, replay.remedies)))
    tests = [n for n, step in enumerate(plan.steps) if step.do == "test"]
    if len(tests) != wanted:
        yield f"earth and insulation are tested {len(tests)} times instead of {wanted}"
    mains = [n for n, s in enumerate(plan.steps) if s.part in replay.machine.parts and replay.machine.parts[s.part].mains]
    if tests and mains and tests[-1] < mains[-1]:
        yield "earth and insulation are tested before the last mains part is on"


def _minutes_add_up(plan: Plan, replay: Replay) -> Iterator[str]:
    for step in plan.steps:
        minutes = replay.minutes(step)
        if not any(isclose(step.minutes, m, abs_tol=1e-9) for m in minutes):
            yield f"{step.do} {step.part}: {step.minutes} minutes instead of {minutes[0]}"
    total = sum(step.minutes for step in plan.steps)
    if not isclose(plan.minutes, total, abs_tol=1e-6):
        yield f"the plan says {plan.minutes} minutes, its steps come to {total}"


def _tray_reads_backwards(plan: Plan, replay: Replay) -> Iterator[str]:
    """A part that comes off once more lies where it lay before."""
    first = {step.part: step for step in reversed(plan.steps) if step.do == "take off"}
    filled = [(cell, step.part) for step in plan.steps if first.get(step.part) is step for cell in step.tray]
    if [cell for cell, _ in filled] != list(range(1, len(filled) + 1)):
        yield "tray cells are not numbered in the order of removal"
    if filled != [(cell.number, cell.part) for cell in plan.tray]:
        yield "the tray does not hold what the steps put there"
    laid = {part: step.tray for part, step in first.items()}
    for step in plan.steps:
        if step.do == "take off" and step.tray != laid[step.part]:
            yield f"{step.part} is laid in other cells than before"
        if step.do == "refit" and step.tray != laid.get(step.part, ())[::-1]:
            yield f"{step.part} is refitted from other cells than it was laid in"


def _lists_match_steps(plan: Plan, replay: Replay) -> Iterator[str]:
    if list(plan.settings) != [s.part for s in plan.steps if s.do == "set"]:
        yield "the settings listed are not the settings made"
    if set(plan.parts) != set(replay.count("renew")):
        yield "the parts listed are not the parts renewed"
    if set(plan.tools) != {tool for s in plan.steps for tool in s.tools}:
        yield "the tools listed are not the tools used"


RULES: tuple[Rule, ...] = (
    _nothing_before_what_it_needs,
    _off_and_on_once,
    _off_for_a_reason,
    _remedies_carried_out,
    _one_proving_sew,
    _tested_before_power,
    _minutes_add_up,
    _tray_reads_backwards,
    _lists_match_steps,
)
