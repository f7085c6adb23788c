"""Every kind of wrong plan is caught: a right one is spoilt in one way and must no longer pass."""

from __future__ import annotations

from dataclasses import replace

import networkx as nx
import pytest

from generator.analysis.job import plan
from generator.analysis.job.types import Plan, Practice, SettingHandling, Step
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Proof, Remedy
from tests.analysis.job.job_cases import (
    machine_of,
    random_case,
    settings_graph,
    zigzag_domestic,
)
from tests.analysis.job.job_proof import faults

JOB = [Remedy("gear", renew=("hook-gear",)), Remedy("clean-feed", reach=("needle-plate",), minutes=4)]
MACHINE, PRACTICE = zigzag_domestic()
GOOD = plan(MACHINE, PRACTICE, JOB)


def at(do: str, part: str) -> int:
    return next(n for n, s in enumerate(GOOD.steps) if (s.do, s.part) == (do, part))


def with_steps(steps: list[Step]) -> Plan:
    """The plan with other steps and with its lists and sums made to fit them."""
    return replace(
        GOOD,
        steps=tuple(steps),
        minutes=sum(s.minutes for s in steps),
        settings=tuple(s.part for s in steps if s.do == "set"),
        tools=tuple(sorted({t for s in steps for t in s.tools})),
        parts=tuple(s.part for s in steps if s.do == "renew"),
    )


def moved(step: tuple[str, str], before: tuple[str, str]) -> Plan:
    steps = list(GOOD.steps)
    one = steps.pop(at(*step))
    steps.insert(next(n for n, s in enumerate(steps) if (s.do, s.part) == before), one)
    return with_steps(steps)


def without(do: str, part: str) -> Plan:
    return with_steps([s for s in GOOD.steps if (s.do, s.part) != (do, part)])


def again(do: str, part: str) -> Plan:
    n = at(do, part)
    return with_steps([*GOOD.steps[: n + 1], GOOD.steps[n], *GOOD.steps[n + 1 :]])


def changed(do: str, part: str, /, **to: object) -> Plan:
    n = at(do, part)
    return with_steps([*GOOD.steps[:n], replace(GOOD.steps[n], **to), *GOOD.steps[n + 1 :]])


def put_in(step: Step, before: tuple[str, str]) -> Plan:
    n = at(*before)
    return with_steps([*GOOD.steps[:n], step, *GOOD.steps[n:]])


GEAR_OFF, GEAR_ON = ("take off", "hook-gear"), ("refit", "hook-gear")
COVER_OFF, COVER_ON = ("take off", "underside-cover"), ("refit", "underside-cover")
PLATE_ON = ("refit", "needle-plate")
TIMING, GAP, SEW = ("set", "hook-timing"), ("set", "hook-gap"), ("sew", "")
BELT_COVER = Step("take off", "belt-cover", "way-in", 1), Step("refit", "belt-cover", "way-out", 1)

WRONG = {
    "hook-gear comes off while underside-cover is in front of it": moved(GEAR_OFF, COVER_OFF),
    "underside-cover is refitted before hook-gear, which is behind it": moved(COVER_ON, GEAR_ON),
    "hook-gear is refitted but is not off": moved(GEAR_ON, GEAR_OFF),
    "hook-gear comes off 2 times": again(*GEAR_OFF),
    "hook-gear is refitted 2 times": again(*GEAR_ON),
    "underside-cover is left off": without(*COVER_ON),
    "belt-cover comes off for nothing": with_steps([*BELT_COVER, *GOOD.steps]),
    "hook-gear is renewed while it is on": moved(("renew", "hook-gear"), GEAR_OFF),
    "renew hook-gear: asked for 1, done 0": without("renew", "hook-gear"),
    "remedy clean-feed: asked for 1, done 0": without("remedy", "clean-feed"),
    "remedy clean-feed: asked for 1, done 2": again("remedy", "clean-feed"),
    "clean-feed is carried out with needle-plate on": moved(("remedy", "clean-feed"), SEW),
    "renew needle: asked for 0, done 1": put_in(Step("renew", "needle", "work"), GEAR_ON),
    "a plan ends in one proving sew": without(*SEW),
    "hook-gap is upset by hook-timing and not made after that": moved(GAP, TIMING),
    "hook-timing is upset by hook-gear and not made after that": moved(TIMING, GEAR_OFF),
    "hook-gap is made before hook-timing, which it follows": moved(GAP, TIMING),
    "belt-tension is made though nothing upset it": put_in(Step("set", "belt-tension", "set", 3), SEW),
    "hook-timing is made though nothing upset it, or once more": again(*TIMING),
    "hook-timing is made with underside-cover in the way": moved(COVER_ON, TIMING),
    "hook-gap is made with needle-plate in the way": moved(PLATE_ON, GAP),
    "a setting is made before the work is done": moved(TIMING, ("renew", "hook-gear")),
    "underside-cover is still off for hook-gap though no setting needs it": moved(COVER_ON, PLATE_ON),
    "hook-timing could be made with hook-gear on": moved(TIMING, GEAR_ON),
    "take off hook-gear: 5 minutes instead of 6": changed(*GEAR_OFF, minutes=5),
    "refit hook-gear: 7 minutes instead of 6": changed(*GEAR_ON, minutes=7),
    "set hook-timing: 0 minutes instead of 20": changed(*TIMING, minutes=0),
    "remedy clean-feed: 3 minutes instead of 4": changed("remedy", "clean-feed", minutes=3),
    "sew : -1 minutes": changed(*SEW, minutes=-1),
    "the plan says 99 minutes": replace(GOOD, minutes=99),
    "tray cells are not numbered in the order of removal": changed(*GEAR_OFF, tray=(9, 8)),
    "the tray does not hold what the steps put there": replace(GOOD, tray=GOOD.tray[1:]),
    "hook-gear is refitted from other cells": changed(*GEAR_ON, tray=(1,)),
    "the settings listed are not the settings made": replace(GOOD, settings=("hook-gap", "hook-timing")),
    "the parts listed are not the parts renewed": replace(GOOD, parts=()),
    "the tools listed are not the tools used": replace(GOOD, tools=("hammer",)),
    "no such thing to do: hammer": changed(*GEAR_OFF, do="hammer"),
    "take off motor-bolt: the machine has none": changed(*GEAR_OFF, part="motor-bolt"),
}


def test_the_plan_that_is_spoilt_below_is_right() -> None:
    assert faults(GOOD, MACHINE, JOB) == ()


@pytest.mark.parametrize("fault", WRONG)
def test_each_kind_of_wrong_plan_is_named(fault: str) -> None:
    assert any(fault in found for found in faults(WRONG[fault], MACHINE, JOB)), faults(WRONG[fault], MACHINE, JOB)


def test_a_setting_made_with_covers_off_that_could_wait_is_caught() -> None:
    machine = machine_of(
        [MachinePart("cover"), MachinePart("gear", ("cover",), disturbs=("timing", "belt"))],
        [MachineSetting("belt"), MachineSetting("timing", reach=("cover",))],
    )
    job = [Remedy("r", renew=("gear",))]
    good = plan(machine, Practice(), job)
    belt = next(s for s in good.steps if s.part == "belt")
    steps = [s for s in good.steps if s != belt]
    steps.insert(next(n for n, s in enumerate(steps) if s.part == "timing"), belt)
    early = replace(good, steps=tuple(steps), settings=("belt", "timing"))
    assert faults(early, machine, job) == ("belt could wait until cover is on",)


def test_a_part_off_that_upsets_a_setting_must_be_told() -> None:
    machine = machine_of(
        [MachinePart("plate", disturbs=("centring",))],
        [MachineSetting("centring"), MachineSetting("gap", after=("centring",), reach=("plate",))],
    )
    job = [Remedy("r", set=("gap",))]
    good = plan(machine, Practice(), job)
    silent = replace(good, steps=tuple(replace(s, notes=()) for s in good.steps))
    assert faults(good, machine, job) == ()
    assert faults(silent, machine, job) == ("centring is made with plate off and the step does not say so",)


def test_what_is_set_and_proved_without_what_it_needs_on_is_caught() -> None:
    machine = Machine(
        {"plate": MachinePart("plate", (), 1, 1)},
        {"centring": MachineSetting("centring", on=("plate",)), "timing": MachineSetting("timing", reach=("plate",))},
        {"watch": Proof("watch", on=("plate",))},
    )
    practice = Practice(settings={"timing": SettingHandling(proved_by="watch")})
    job = [Remedy("r", set=("centring", "timing"))]
    good = plan(machine, practice, job)
    assert faults(good, machine, job) == ()
    for what in ("centring", "watch"):
        steps = [s for s in good.steps if s.part != what]
        steps.insert(1 + [s.do for s in steps].index("take off"), next(s for s in good.steps if s.part == what))
        early = replace(good, steps=tuple(steps), settings=tuple(s.part for s in steps if s.do == "set"))
        verb = "made" if what == "centring" else "done"
        assert f"{what} is {verb} with plate off" in faults(early, machine, job)


def test_a_part_put_on_for_nothing_between_is_caught() -> None:
    machine = Machine({"plate": MachinePart("plate", (), 1, 1)}, {"timing": MachineSetting("timing", reach=("plate",))})
    job = [Remedy("r", set=("timing",))]
    good = plan(machine, Practice(), job)
    off, made, on, sew = good.steps
    twice = replace(good, steps=(off, on, off, made, on, sew), minutes=good.minutes + 2)
    assert "plate comes off 2 times" in faults(twice, machine, job)


def test_any_step_left_out_or_done_twice_is_caught_on_random_plans() -> None:
    for number in range(150):
        machine, practice, job = random_case(number)
        good = plan(machine, practice, job)
        for n, step in enumerate(good.steps):
            if step.do in ("oil", "check"):
                continue
            left_out = replace(good, steps=good.steps[:n] + good.steps[n + 1 :])
            twice = replace(good, steps=good.steps[: n + 1] + good.steps[n:])
            assert faults(left_out, machine, job), (number, step)
            assert faults(twice, machine, job), (number, step)


def test_any_two_settings_swapped_against_networkx_are_caught_on_random_plans() -> None:
    caught = 0
    for number in range(400):
        machine, practice, job = random_case(number)
        good = plan(machine, practice, job)
        before = nx.transitive_closure(settings_graph(machine, set(good.settings)))
        places = [n for n, s in enumerate(good.steps) if s.do == "set"]
        for a, b in zip(places, places[1:]):
            if before.has_edge(good.steps[a].part, good.steps[b].part):
                steps = list(good.steps)
                steps[a], steps[b] = steps[b], steps[a]
                swapped = replace(good, steps=tuple(steps), settings=tuple(s.part for s in steps if s.do == "set"))
                assert faults(swapped, machine, job), number
                caught += 1
    assert caught > 100


def test_a_plan_for_other_remedies_is_no_plan_for_these() -> None:
    other = plan(MACHINE, PRACTICE, [Remedy("feed", renew=("feed-dog",))])
    assert faults(other, MACHINE, JOB)
    assert faults(GOOD, MACHINE, JOB[:1])
