"""Each law replays a plan from a closed, unplugged machine and says where it is broken."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from generator.analysis.job.types import UPRIGHT, Plan, Step
from generator.analysis.machine import Remedy
from tests.laws.facts import Facts, WorkFacts


@dataclass
class State:
    """How the machine stands before a step."""

    off: set[str] = field(default_factory=set)
    joints: dict[str, str] = field(default_factory=dict)
    "Free or nipped; those not named are tight."
    upset: set[str] = field(default_factory=set)
    untested: set[str] = field(default_factory=set)
    "Mains parts renewed or opened and not tested since."
    lie: str = UPRIGHT


Law = Callable[[Facts, State, Step], Iterator[str]]


def broken(facts: Facts, plan: Plan, remedies: tuple[Remedy, ...]) -> Iterator[tuple[str, str]]:
    """Name of the law and what breaks it, step by step and then at the end."""
    state = State(upset={s for r in remedies for s in r.set})
    opened = {p for r in remedies for p in (*r.renew, *r.clean)}
    state.untested = {p for p in opened if facts.parts[p].mains}
    for number, step in enumerate(plan.steps, 1):
        for law in LAWS:
            yield from ((law.__name__.strip("_"), f"step {number}, {step.do} {step.part}: {said}") for said in law(facts, state, step))
        _done(facts, state, step)
    yield from (("joints_end_tight", f"{joint} ends {how}") for joint, how in sorted(state.joints.items()))
    yield from (("settings_end_good", f"{setting} ends upset") for setting in sorted(state.upset))
    yield from (("parts_end_on", f"{part} ends off") for part in sorted(state.off))
    yield from (("mains_tested_before_power", f"{part} ends untested") for part in sorted(state.untested))


def unsaid(facts: Facts, planned: Plan, remedies: tuple[Remedy, ...]) -> list[tuple[str, str]]:
    """What is broken at a step that does not say so: where records demand both, no order exists, and the sheet says it."""
    told = {n for n, s in enumerate(planned.steps, 1) if any(note.startswith(("Made with", "Done with")) for note in s.notes)}
    return [(law, said) for law, said in broken(facts, planned, remedies) if not said.startswith(tuple(f"step {n}," for n in told))]


def _done(facts: Facts, state: State, step: Step) -> None:
    state.lie = step.position or state.lie
    if step.do == "take off":
        part = facts.parts[step.part]
        state.off.add(step.part)
        state.upset |= set(part.disturbs)
        state.joints |= dict.fromkeys(part.joints, "free")
    elif step.do == "refit":
        state.off.discard(step.part)
        for joint in facts.parts[step.part].joints:
            state.joints.pop(joint, None)
        state.joints |= dict.fromkeys(step.nips, "nipped")
    elif step.do == "set":
        setting = facts.settings[step.part]
        state.upset = (state.upset - {step.part}) | set(setting.disturbs)
        for joint in setting.joints if not step.read else ():
            state.joints.pop(joint, None)
    elif step.do == "test":
        state.untested.clear()


def _work(facts: Facts, step: Step) -> WorkFacts | None:
    kinds = {"set": facts.settings, "check": facts.checks}
    return kinds[step.do].get(step.part) if step.do in kinds else None


def _live(facts: Facts, step: Step) -> bool:
    work = _work(facts, step)
    return step.do == "sew" or (work is not None and work.power == "on")


def _no_power_while_open(facts: Facts, state: State, step: Step) -> Iterator[str]:
    work = _work(facts, step)
    if _live(facts, step):
        spared = facts.with_front(work.reach) if work and work.open_on_purpose else set()
        for part in sorted(state.off - spared):
            if facts.parts[part].guards or facts.parts[part].mains:
                yield f"power with {part} off"


def _no_power_while_lying(facts: Facts, state: State, step: Step) -> Iterator[str]:
    """A head that runs stands on its feet or in its table."""
    if _live(facts, step) and (step.position or state.lie) != UPRIGHT:
        yield f"power while {step.position or state.lie}"


def _no_power_while_loose(facts: Facts, state: State, step: Step) -> Iterator[str]:
    if _live(facts, step):
        yield from (f"power with {joint} {how}" for joint, how in sorted(state.joints.items()) if how == "nipped")


def _no_power_while_out_of_time(facts: Facts, state: State, step: Step) -> Iterator[str]:
    """What is made by the thread itself, such as the check spring's throw, lets nothing strike."""
    if _live(facts, step):
        striking = {s for s in state.upset if facts.needle in facts.settings[s].on and facts.settings[s].power != "on"}
        striking = {s for s in striking if facts.thread not in facts.settings[s].on}
        yield from (f"power with {setting} upset" for setting in sorted(striking - {step.part}))


def _mains_tested_before_power(facts: Facts, state: State, step: Step) -> Iterator[str]:
    if _live(facts, step):
        yield from (f"power with {part} untested" for part in sorted(state.untested))


def _needle_out_first(facts: Facts, state: State, step: Step) -> Iterator[str]:
    work = _work(facts, step)
    wanted = facts.parts[step.part].needle_out if step.do == "take off" else work is not None and work.needle_out
    if wanted and facts.needle in facts.parts and facts.needle not in state.off:
        yield "the needle is in"


def _in_place(facts: Facts, state: State, step: Step) -> Iterator[str]:
    work = _work(facts, step)
    if work:
        for part in sorted((set(work.on) & state.off) - facts.with_front(work.reach)):
            yield f"{part} is off"


def _out_of_the_way(facts: Facts, state: State, step: Step) -> Iterator[str]:
    work = _work(facts, step) if step.do == "set" else None
    if work:
        yield from (f"{part} is on" for part in sorted(facts.with_front(work.reach) - state.off))


def _turned_by_hand(facts: Facts, state: State, step: Step) -> Iterator[str]:
    work = _work(facts, step)
    if work and work.power == "handwheel-only":
        for part in sorted(state.off - facts.with_front(work.reach)):
            if facts.parts[part].by_hand:
                yield f"turned by hand with {part} off"


def _nothing_in_front(facts: Facts, state: State, step: Step) -> Iterator[str]:
    if step.do == "take off":
        yield from (f"{part} is in front" for part in sorted(set(facts.parts[step.part].behind) - state.off))
    elif step.do == "refit":
        yield from (f"{part} is behind it and off" for part in sorted(state.off) if step.part in facts.parts[part].behind)


def _nipped_as_the_records_say(facts: Facts, state: State, step: Step) -> Iterator[str]:
    if step.do == "refit":
        yield from (f"{joint} is left nipped" for joint in sorted(set(step.nips) - set(facts.parts[step.part].nips)))


LAWS: tuple[Law, ...] = (
    _no_power_while_open,
    _no_power_while_lying,
    _no_power_while_loose,
    _no_power_while_out_of_time,
    _mains_tested_before_power,
    _needle_out_first,
    _in_place,
    _out_of_the_way,
    _turned_by_hand,
    _nothing_in_front,
    _nipped_as_the_records_say,
)
