"""Plans proved right by replay, and counted again from the records by networkx."""

from __future__ import annotations

import json
from functools import cache

import networkx as nx
import pytest

from generator.analysis.job import plan, plan_json
from generator.analysis.job.types import Plan, Practice, Weights
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy
from tests.analysis.job.job_cases import (
    behind_graph,
    industrial_head,
    machine_of,
    overlock,
    random_case,
    random_case_in_place,
    zigzag_domestic,
)
from tests.analysis.job.job_proof import faults

FAMILIES = [zigzag_domestic, overlock, industrial_head]


@cache
def planned(number: int) -> tuple[Machine, Practice, list[Remedy], Plan]:
    """A case by chance with its plan, which several claims are about."""
    case = random_case(number)
    return *case, plan(*case)


def counted_minutes(machine: Machine, remedies: list[Remedy], proving: float) -> float:
    """Minutes from a closed machine, each part and setting once, by closures of networkx."""
    graph = nx.DiGraph()
    for part in machine.parts.values():
        graph.add_edges_from((("part", part.id), ("part", b)) for b in part.behind)
        graph.add_edges_from((("part", part.id), ("set", s)) for s in part.disturbs)
    for setting in machine.settings.values():
        graph.add_edges_from((("set", setting.id), ("set", s)) for s in setting.disturbs)
        graph.add_edges_from((("set", setting.id), ("part", p)) for p in setting.reach)
    for remedy in remedies:
        graph.add_node("job")
        graph.add_edges_from(("job", ("part", p)) for p in (*remedy.renew, *remedy.reach))
        graph.add_edges_from(("job", ("set", s)) for s in remedy.set)
    needed = nx.descendants(graph, "job")
    parts = [machine.parts[id] for kind, id in needed if kind == "part"]
    settings = [machine.settings[id] for kind, id in needed if kind == "set"]
    own = sum(r.minutes for r in remedies)
    return sum(p.off_minutes + p.on_minutes for p in parts) + sum(s.minutes for s in settings) + own + proving


def test_1000_random_plans_are_proved_right() -> None:
    for number in range(1000):
        machine, _, remedies, made = planned(number)
        assert faults(made, machine, remedies) == (), number


def test_400_random_plans_with_parts_needed_on_are_proved_right() -> None:
    again = 0
    for number in range(400):
        machine, practice, remedies = random_case_in_place(number)
        made = plan(machine, practice, remedies)
        assert faults(made, machine, remedies) == (), number
        off = [s.part for s in made.steps if s.do == "take off"]
        again += len(off) > len(set(off))
    assert again > 25


def test_a_swing_is_set_with_the_plate_on_and_the_plate_comes_off_for_the_hook_only_then() -> None:
    """Common practice, no source: the needle is centred in the plate's hole; hook timing is seen with the plate off."""
    machine = machine_of(
        [MachinePart("needle-plate", (), 1, 1), MachinePart("top-cover", (), 1, 1), MachinePart("hook", ("needle-plate",), 3, 4)],
        [
            MachineSetting("centring", 8, reach=("top-cover",), on=("needle-plate",)),
            MachineSetting("hook-timing", 20, ("centring",), reach=("needle-plate",)),
        ],
    )
    both = [Remedy("r", set=("centring", "hook-timing"))]
    done = [(s.do, s.part) for s in plan(machine, Practice(), both).steps]
    assert done == [
        ("take off", "top-cover"), ("set", "centring"), ("refit", "top-cover"), ("take off", "needle-plate"),
        ("set", "hook-timing"), ("refit", "needle-plate"), ("sew", ""),
    ]  # fmt: skip
    hook = plan(machine, Practice(), [*both, Remedy("hook", renew=("hook",))])
    assert [(s.do, s.part) for s in hook.steps if s.part == "needle-plate"] == [
        ("take off", "needle-plate"), ("refit", "needle-plate"),
        ("take off", "needle-plate"), ("refit", "needle-plate"),
    ]  # fmt: skip
    assert faults(hook, machine, [*both, Remedy("hook", renew=("hook",))]) == ()


@pytest.mark.parametrize("family", FAMILIES)
def test_every_single_renewal_and_setting_of_a_known_machine_is_proved_right(family) -> None:
    machine, practice = family()
    jobs = [Remedy(p, renew=(p,)) for p in machine.parts]
    jobs += [Remedy(s, set=(s,)) for s in machine.settings]
    for one in jobs:
        for other in jobs:
            both = [one, other]
            assert faults(plan(machine, practice, both), machine, both) == (), (one.id, other.id)


def test_minutes_are_the_count_from_a_closed_machine() -> None:
    for number in range(500):
        machine, practice, remedies = random_case(number)
        minutes = plan(machine, practice, remedies, Weights(proving_minutes=3)).minutes
        assert minutes == pytest.approx(counted_minutes(machine, remedies, 3), abs=1e-9), number


def test_one_visit_is_no_longer_than_separate_ones_and_no_shorter_than_the_longest() -> None:
    for number in range(500):
        machine, practice, remedies, made = planned(number)
        whole = made.minutes
        each = [plan(machine, practice, [r]).minutes for r in remedies]
        assert max(each) - 1e-9 <= whole <= sum(each) + 1e-9, number


def test_shared_steps_are_done_once() -> None:
    machine, practice = zigzag_domestic()
    job = plan(machine, practice, [Remedy("a", renew=("hook-gear",)), Remedy("b", renew=("lower-shaft-gear",))])
    done = [(s.do, s.part) for s in job.steps]
    assert len(done) == len(set(done))
    assert [s.do for s in job.steps].count("sew") == 1


def test_the_hook_gear_is_renewed_as_at_the_bench() -> None:
    """Common practice, no source: needle out first; timed with the needle in and the cover off."""
    machine, practice = zigzag_domestic()
    job = plan(machine, practice, [Remedy("r", renew=("hook-gear",))])
    assert [(s.do, s.part) for s in job.steps] == [
        ("take off", "presser-foot"),
        ("take off", "needle"),
        ("take off", "needle-plate"),
        ("take off", "underside-cover"),
        ("take off", "hook-gear"),
        ("renew", "hook-gear"),
        ("refit", "hook-gear"),
        ("oil", "hook-race"),
        ("refit", "needle"),
        ("set", "hook-timing"),
        ("check", "watch-hook-pass-needle"),
        ("refit", "underside-cover"),
        ("set", "hook-gap"),
        ("refit", "needle-plate"),
        ("refit", "presser-foot"),
        ("sew", ""),
    ]


def test_parts_held_off_for_no_setting_go_on_in_the_reverse_order_if_no_turn_is_saved() -> None:
    for number in range(300):
        machine, _, remedies = random_case(number)
        if any(s.reach for s in machine.settings.values()):
            machine = Machine(
                machine.parts,
                {id: MachineSetting(id, s.minutes, s.after, s.disturbs) for id, s in machine.settings.items()},
            )
        steps = plan(machine, Practice(), remedies).steps
        off = [s.part for s in steps if s.do == "take off"]
        assert [s.part for s in steps if s.do == "refit"] == off[::-1]


def test_refitting_never_meets_a_part_that_networkx_puts_behind_one_still_off() -> None:
    for number in range(200):
        machine, _, _, made = planned(number)
        refitted = [s.part for s in made.steps if s.do == "refit"]
        place = {part: n for n, part in enumerate(refitted)}
        closure = nx.transitive_closure(behind_graph(machine, refitted))
        assert all(place[behind] < place[front] for front, behind in closure.edges)


def test_a_plan_does_not_depend_on_the_order_of_records_or_remedies() -> None:
    for number in range(100):
        machine, practice, remedies, made = planned(number)
        turned = Machine(
            dict(reversed(machine.parts.items())), dict(reversed(machine.settings.items()))
        )
        steps = made.steps
        again = plan(turned, practice, remedies[::-1]).steps
        assert [s for s in steps if s.do != "remedy"] == [s for s in again if s.do != "remedy"]


def test_cleaning_is_done_with_its_reach_off_and_its_own_minutes() -> None:
    machine, practice = zigzag_domestic()
    job = plan(machine, practice, [Remedy("clean-feed", reach=("needle-plate",), minutes=4)])
    assert [(s.do, s.part, s.minutes) for s in job.steps if s.phase == "work"] == [("remedy", "clean-feed", 4)]
    assert job.minutes == (0.5 + 1) + (0.5 + 1.5) + 4 + 2


def test_a_remedy_asked_for_twice_is_carried_out_once() -> None:
    machine, practice = zigzag_domestic()
    clean = Remedy("clean-feed", reach=("needle-plate",), minutes=4)
    assert plan(machine, practice, [clean, clean]) == plan(machine, practice, [clean])


def test_json_holds_the_agreed_keys_and_survives_a_round_trip() -> None:
    machine, practice = zigzag_domestic()
    told = plan_json(plan(machine, practice, [Remedy("r", renew=("hook-gear",))]))
    assert json.loads(json.dumps(told)) == told
    assert {"steps", "settings", "while_open", "minutes", "tools", "parts"} <= told.keys()
    assert {"do", "part", "phase", "minutes"} <= told["steps"][0].keys()
    assert told["settings"] == ["hook-timing", "hook-gap"]
    assert told["parts"] == ["hook-gear"]
    assert told["tools"] == ["driver", "hex-key"]
    assert {"part", "extra_minutes"} <= told["while_open"][0].keys()


def test_nothing_to_do_and_strange_ids_are_refused_in_words() -> None:
    machine = machine_of([MachinePart("cover")], [MachineSetting("timing")])
    with pytest.raises(ValueError, match="nothing to plan"):
        plan(machine, Practice(), [])
    with pytest.raises(ValueError, match="no part 'gaer', no setting 'timng'"):
        plan(machine, Practice(), [Remedy("r", renew=("gaer",), set=("timng",))])
