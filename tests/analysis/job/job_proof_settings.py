"""What a right plan owes to its settings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.analysis.job.types import Plan, Step
from generator.analysis.machine import Machine
from tests.analysis.job.job_replay import Replay, in_front, needs_off, needs_on


def _upset_settings_made(plan: Plan, replay: Replay) -> Iterator[str]:
    """Whatever is upset stays pending until it is made, so one made too early is pending at the end."""
    pending = {s: "asked for" for r in replay.remedies for s in r.set}
    for step in plan.steps:
        if step.do == "set":
            if pending.pop(step.part, None) is None:
                yield f"{step.part} is made though nothing upset it, or once more than needed"
            pending |= dict.fromkeys(replay.machine.settings[step.part].disturbs, f"upset by {step.part}")
        elif step.do == "take off":
            pending |= dict.fromkeys(replay.machine.parts[step.part].disturbs, f"upset by {step.part}")
    for setting, why in sorted(pending.items()):
        yield f"{setting} is {why} and not made after that"


def _read_only_where_merely_upset(plan: Plan, replay: Replay) -> Iterator[str]:
    """What was asked for, what a new part wants and what does up a nipped joint is made unread."""
    machine = replay.machine
    sure = {s for r in replay.remedies for s in (*r.set, *(d for p in r.renew for d in machine.parts[p].disturbs))}
    sure |= {s for p in replay.count("take off") for s in machine.parts[p].loses}
    for step in plan.steps:
        if step.do == "set" and step.read != (step.part not in sure and machine.settings[step.part].read_minutes is not None):
            yield f"{step.part} is {'left unread' if not step.read else 'read where it must be made'}"


def _made_after_what_they_follow(plan: Plan, replay: Replay) -> Iterator[str]:
    made = [step.part for step in plan.steps if step.do == "set"]
    for n, setting in enumerate(made):
        for later in sorted(_followed(replay.machine, setting).intersection(made[n + 1 :])):
            yield f"{setting} is made before {later}, which it follows"


def _followed(machine: Machine, setting: str) -> set[str]:
    found = set(machine.settings[setting].after)
    while True:
        further = {b for a in found for b in machine.settings[a].after} | found
        if further == found:
            return found
        found = further


def _reach_is_off(plan: Plan, replay: Replay) -> Iterator[str]:
    for step, off in replay:
        if step.do == "set":
            for part in sorted(set(replay.machine.settings[step.part].reach) - off):
                yield f"{step.part} is made with {part} in the way"
        elif step.do == "check":
            moved = replay.count("take off").keys()
            for part in sorted((needs_off(replay.machine, step) & moved) - off):
                if not _says(step, part):
                    yield f"{step.part} is done with {part} in the way"


def _in_place(plan: Plan, replay: Replay) -> Iterator[str]:
    """What is set or proved has on it what it is measured against and turned by, or the step says that it has not."""
    for step, off in replay:
        for part in sorted(off & needs_on(replay, step)):
            if not _says(step, part):
                yield f"{step.part} is {'made' if step.do == 'set' else 'done'} with {part} off"


def _says(step: Step, part: str) -> bool:
    return any(part.replace("-", " ") in note for note in step.notes)


def _after_the_work(plan: Plan, replay: Replay) -> Iterator[str]:
    """A setting made before a remedy is carried out may be for nothing."""
    phases = [step.do for step in plan.steps]
    if "set" in phases and any(do in ("renew", "remedy") for do in phases[phases.index("set") :]):
        yield "a setting is made before the work is done"


def _open_no_longer_than_needed(plan: Plan, replay: Replay) -> Iterator[str]:
    """What no setting needs off goes on before the next, but for a cover that would cost a turn.

    A setting that names what it is made with waits for that alone, and for what upsets it.
    """
    machine = replay.machine
    for n, (step, off) in enumerate(replay):
        if step.do == "set":
            needed = [needs_off(machine, s) for s in plan.steps[n:]]
            idle = off.difference(*needed, _waiting_for_a_turn(plan, replay, n))
            names_none = not machine.settings[step.part].on
            for part in sorted(p for p in idle if names_none or step.part in machine.parts[p].disturbs):
                yield f"{part} is still off for {step.part} though no setting needs it off any more"


def _made_with_what_upsets_it_on(plan: Plan, replay: Replay) -> Iterator[str]:
    """A part that upsets a setting may be off for it only if the order leaves no choice, and is told."""
    upset_by = {
        s: {p for p in replay.count("take off") if s in replay.machine.parts[p].disturbs}
        for s in replay.count("set")
    }
    for step, part in _off_by_choice(plan, replay, upset_by):
        yield f"{step.part} could be made with {part} on"
    for step, off in replay:
        if step.do == "set":
            for part in sorted(off & upset_by[step.part] - _needs_off(replay.machine, step.part)):
                if not _says(step, part):
                    yield f"{step.part} is made with {part} off and the step does not say so"


def _made_with_covers_on(plan: Plan, replay: Replay) -> Iterator[str]:
    """The same for all other parts: a setting that needs no cover off waits until the covers are on."""
    everything = {s: set(replay.count("take off")) for s in replay.count("set")}
    for step, part in _off_by_choice(plan, replay, everything):
        if not replay.machine.settings[step.part].on:
            yield f"{step.part} could wait until {part} is on"


def _off_by_choice(
    plan: Plan, replay: Replay, rather_on: Mapping[str, set[str]]
) -> Iterator[tuple[Step, str]]:
    """Settings made with a part off for no reason of their own, nor for one that must follow them.

    What must follow is read from the records and from what this plan keeps of `rather_on`: putting
    the part on first would close a round with those.
    """
    follows = _kept(plan, replay, rather_on)
    for n, (step, off) in enumerate(replay):
        if step.do == "set":
            coming = _reachable(follows, step.part)
            needed = set().union(*(_needs_off(replay.machine, s) for s in (step.part, *coming)))
            needed |= set().union(*(needs_off(replay.machine, s) for s in plan.steps[n:] if s.do == "check"))
            for part in sorted(off & rather_on[step.part] - needed - _waiting_for_a_turn(plan, replay, n)):
                yield step, part


def _waiting_for_a_turn(plan: Plan, replay: Replay, now: int) -> set[str]:
    """Parts that upset nothing, not yet on since the machine has not lain right for them, and those in front."""
    machine = replay.machine
    refits = {step.part: step for step in plan.steps[now:] if step.do == "refit"}
    waiting = {
        part
        for part, refit in refits.items()
        if refit.position not in {s.position for s in plan.steps[_last_need(plan, machine, part, now) : now + 1]}
    }
    return {part for part in in_front(machine, waiting) if not machine.parts[part].disturbs}


def _last_need(plan: Plan, machine: Machine, part: str, now: int) -> int:
    """The step before this one since which a part could go on, had the machine lain right for it."""
    steps = plan.steps[:now]
    needed = (
        n for n, s in enumerate(steps)
        if s.phase in ("way-in", "work")
        or part in needs_off(machine, s)
        or (s.do == "refit" and part in machine.parts[s.part].behind)
    )  # fmt: skip
    return max(needed, default=0)


def _kept(
    plan: Plan, replay: Replay, rather_on: Mapping[str, set[str]]
) -> dict[str, set[str]]:
    """Later settings that must follow each one: by the records, or since it needs off what they need on."""
    machine = replay.machine
    made = [step.part for step in plan.steps if step.do == "set"]
    follows: dict[str, set[str]] = {s: set() for s in made}
    for n, first in enumerate(made):
        for then in made[n + 1 :]:
            on = rather_on[then] - _needs_off(machine, then)
            recorded = first in _followed(machine, then) or then in machine.settings[first].disturbs
            if recorded or on & _needs_off(machine, first):
                follows[first].add(then)
    return follows


def _reachable(follows: Mapping[str, set[str]], start: str) -> set[str]:
    found = set(follows[start])
    while more := {b for a in found for b in follows[a]} - found:
        found |= more
    return found


def _needs_off(machine: Machine, setting: str) -> set[str]:
    return in_front(machine, machine.settings[setting].reach)


SETTING_RULES = (
    _upset_settings_made,
    _read_only_where_merely_upset,
    _made_after_what_they_follow,
    _reach_is_off,
    _in_place,
    _after_the_work,
    _open_no_longer_than_needed,
    _made_with_what_upsets_it_on,
    _made_with_covers_on,
)
