"""What each step carries: tray cells, oil, checks, turns of the machine and notes."""

from __future__ import annotations

import pytest

from generator.analysis.job import plan
from generator.analysis.job.settings import Making, Proving
from generator.analysis.job.steps import Job, all_steps, by_part
from generator.analysis.job.types import Cell, Handling, Plan, Practice, SettingHandling, Step, Weights
from generator.analysis.machine import Machine, MachinePart, MachineSetting, MachineWait, Remedy
from tests.analysis.job.job_cases import BACK, machine_of, random_case, zigzag_domestic


def gear_job() -> Plan:
    machine, practice = zigzag_domestic()
    return plan(machine, practice, [Remedy("r", renew=("hook-gear",))])


def steps_of(job: Plan, do: str) -> list[Step]:
    return [s for s in job.steps if s.do == do]


def test_tray_cells_count_up_on_the_way_in_and_a_full_reverse_reads_down() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",)), MachinePart("shaft", ("gear",))], [])
    practice = Practice(
        {
            "cover": Handling(joints=("cover-screws",)),
            "gear": Handling(joints=("front-screw", "back-screw"), loose=("shim",)),
            "shaft": Handling(joints=("bush-screw",)),
        }
    )
    job = plan(machine, practice, [Remedy("r", renew=("shaft",))])
    assert [s.tray for s in steps_of(job, "take off")] == [(1,), (2, 3, 4), (5,)]
    assert [n for s in steps_of(job, "refit") for n in s.tray] == [5, 4, 3, 2, 1]
    assert [(c.number, c.part, c.holds, c.kind) for c in job.tray[1:4]] == [
        (2, "gear", "front-screw", "joint"),
        (3, "gear", "back-screw", "joint"),
        (4, "gear", "shim", "loose"),
    ]


def test_a_joint_shared_by_two_parts_has_one_cell() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",))], [])
    practice = Practice({p: Handling(joints=("long-screw",)) for p in machine.parts})
    job = plan(machine, practice, [Remedy("r", renew=("gear",))])
    assert [(c.number, c.part) for c in job.tray] == [(1, "cover")]


def test_every_joint_and_loose_piece_of_what_comes_off_has_a_cell() -> None:
    for number in range(200):
        machine, practice, remedies = random_case(number)
        job = plan(machine, practice, remedies)
        handled = [practice.parts[s.part] for s in steps_of(job, "take off")]
        joints = {j for h in handled for j in h.joints}
        pieces = [piece for h in handled for piece in h.loose]
        assert sorted(c.holds for c in job.tray if c.kind == "joint") == sorted(joints)
        assert sorted(c.holds for c in job.tray if c.kind == "loose") == sorted(pieces)


def test_an_oil_point_is_oiled_once_before_the_cover_hides_it() -> None:
    done = [(s.do, s.part) for s in gear_job().steps]
    assert done.count(("oil", "hook-race")) == 1
    steps = [("refit", "hook-gear"), ("oil", "hook-race"), ("refit", "underside-cover")]
    assert [step for step in done if step in steps] == steps


def test_every_oil_point_touched_is_oiled_once() -> None:
    for number in range(200):
        machine, practice, remedies = random_case(number)
        job = plan(machine, practice, remedies)
        touched = {o for s in steps_of(job, "take off") for o in practice.parts[s.part].oil}
        assert sorted(s.part for s in steps_of(job, "oil")) == sorted(touched)


def test_a_check_shared_by_two_settings_follows_the_last_of_them_at_once() -> None:
    machine = machine_of([], [MachineSetting("height", disturbs=("timing",)), MachineSetting("timing", after=("height",))])
    practice = Practice(settings={s: SettingHandling(proved_by="watch-hook") for s in machine.settings})
    job = plan(machine, practice, [Remedy("r", set=("height",))])
    assert [(s.do, s.part) for s in job.steps] == [
        ("set", "height"), ("set", "timing"), ("check", "watch-hook"), ("sew", ""),
    ]  # fmt: skip


def test_the_caution_for_turning_a_heavy_head_stands_at_every_turn_and_nowhere_else() -> None:
    for number in range(100):
        machine, practice, remedies = random_case(number)
        lies = "upright"
        for step in plan(machine, practice, remedies).steps:
            warned = bool(step.notes) and step.notes[0].startswith("First turn the machine")
            assert warned == (step.position != lies)
            lies = step.position
        assert lies == "upright"


def test_loose_pieces_are_named_when_they_can_fall_and_when_they_go_back() -> None:
    off, on = (next(s for s in gear_job().steps if (s.do, s.part) == (do, "hook-gear")) for do in ("take off", "refit"))
    assert "Watch for the hook shaft shim, which can fall out unseen." in off.notes
    assert "Fit the new one." in on.notes
    assert "Put back the hook shaft shim." in on.notes


def test_work_is_done_as_the_machine_lies_after_the_way_in() -> None:
    assert [s.position for s in gear_job().steps if s.phase == "work"] == [BACK]


def test_earth_and_insulation_are_tested_if_any_remedy_touches_the_mains() -> None:
    """By hand: 6 minutes, once, before the sew; none where neither remedy renews or cleans a mains part."""
    machine = Machine({"belt": MachinePart("belt"), "motor": MachinePart("motor", mains=True)}, mains_test=6)
    belt, motor = Remedy("belt", renew=("belt",)), Remedy("motor", renew=("motor",))
    for remedies in ([belt, motor], [motor, belt], [motor]):
        steps = plan(machine, Practice(), remedies).steps
        assert [(s.do, s.minutes) for s in steps[-2:]] == [("test", 6), ("sew", 2)]
        assert [s.do for s in steps].count("test") == 1
    assert "test" not in [s.do for s in plan(machine, Practice(), [belt]).steps]


@pytest.mark.parametrize(
    ("remedy", "told"),
    [
        (Remedy("r", renew=("gear",)), []),
        (Remedy("r", set=("timing",)), []),
        (Remedy("r", renew=("gear",), set=("timing",)), []),
        (Remedy("r", renew=("gear",), minutes=3), [3]),
        (Remedy("r", set=("timing",), minutes=3), [3]),
        (Remedy("r", reach=("gear",), minutes=3), [3]),
        (Remedy("r", reach=("gear",)), [0]),
    ],
)
def test_a_remedy_is_a_step_of_its_own_where_it_takes_minutes_or_is_neither_renewing_nor_setting(remedy: Remedy, told: list[float]) -> None:
    machine = machine_of([MachinePart("gear")], [MachineSetting("timing", 9)])
    assert [s.minutes for s in steps_of(plan(machine, Practice(), [remedy]), "remedy")] == told


def test_waiting_is_told_and_carried_by_the_step_that_waits() -> None:
    machine = machine_of([MachinePart("gear", (), 6, 7)], [])
    soak, cool, cure = (MachineWait(m, why) for m, why in ((5, "it soaks"), (4, "it cools"), (3, "it cures")))
    practice = Practice({"gear": Handling(off_wait=soak, on_wait=cool)})
    job = plan(machine, practice, [Remedy("r", renew=("gear",), minutes=8, wait=cure)])
    waits = {s.do: (s.wait, s.notes) for s in job.steps}
    assert waits == {
        "take off": (soak, ("Wait 5 min: it soaks.",)),
        "renew": (None, ()),
        "remedy": (cure, ("Wait 3 min: it cures.",)),
        "refit": (cool, ("Fit the new one.", "Wait 4 min: it cools.")),
        "sew": (None, ()),
    }


def test_the_new_one_is_fitted_where_a_part_is_renewed_and_nowhere_else() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",))], [])
    refits = steps_of(plan(machine, Practice(), [Remedy("r", renew=("gear",))]), "refit")
    assert [(s.part, s.notes) for s in refits] == [("gear", ("Fit the new one.",)), ("cover", ())]


def test_joints_of_other_parts_are_slackened_as_it_comes_off_and_done_up_again_but_for_those_left_nipped() -> None:
    machine = machine_of([MachinePart("gear")], [])
    practice = Practice({"gear": Handling(slackens=("bush-screw", "collar-screw"), nips=("collar-screw",))})
    off, on = (steps_of(plan(machine, practice, [Remedy("r", reach=("gear",))]), do) for do in ("take off", "refit"))
    assert off[0].notes == ("Slacken the bush screw as well.", "Slacken the collar screw as well.")
    assert on[0].notes[0] == "Do up the bush screw again."
    assert not any(note.startswith("Do up the collar screw") for note in on[0].notes)


CENTRED = [MachineSetting("centring", 8, on=("plate",)), MachineSetting("timing", 20, ("centring",), reach=("plate",))]
"The needle is centred in the plate's hole, and timing is seen with the plate off (common practice, no source)."


def test_a_part_says_once_more_only_when_it_came_off_before() -> None:
    """Renewed, the plate comes off for the work and once more for timing; else only for timing."""
    machine = machine_of([MachinePart("plate", (), 1, 1)], CENTRED)
    both = Remedy("set", set=("centring", "timing"))
    renewed = steps_of(plan(machine, Practice(), [both, Remedy("plate", renew=("plate",))]), "take off")
    once_more = "Once more: it was on for what came before and is in the way of what follows."
    assert [(s.phase, s.notes) for s in renewed] == [("way-in", ()), ("way-out", (once_more,))]
    kept = steps_of(plan(machine, Practice(), [both]), "take off")
    assert [(s.phase, s.notes) for s in kept] == [("way-out", ())]


def test_a_setting_made_with_a_part_off_says_which_and_what_follows_that_needs_it_off() -> None:
    """The plate upsets centring, so it cannot come off again for timing after it: it stays off for both, and is told."""
    machine = machine_of([MachinePart("plate", (), 1, 1, ("centring",))], CENTRED)
    job = plan(machine, Practice(), [Remedy("r", set=("centring", "timing"))])
    assert [(s.part, s.notes) for s in steps_of(job, "set")] == [
        ("centring", ("Made with the plate off: the timing follows and needs it off.",)),
        ("timing", ()),
    ]


def test_a_setting_of_which_no_later_one_needs_the_part_off_says_only_that_it_is_off() -> None:
    making = Making("centring", frozenset({"plate"}), (("plate", ""), ("foot", "timing")))
    machine = machine_of([], CENTRED)
    (step, _) = all_steps(Job(machine, Practice(), (), (), (making,), {}), Weights())
    assert step.notes == ("Made with the plate off.", "Made with the foot off: the timing follows and needs it off.")
    assert (step.minutes, step.read) == (8, False)


def test_a_setting_that_is_read_first_is_so_by_its_own_name_only() -> None:
    """By hand: read 2 and made, 8, one time in four: 4; the other is made, 20."""
    read = [MachineSetting("centring", 8, read_minutes=2), MachineSetting("timing", 20, read_minutes=2)]
    machine = Machine(settings={s.id: s for s in read}, found_out=0.25)
    back = tuple(Making(s.id, frozenset(), ()) for s in read)
    steps = all_steps(Job(machine, Practice(), (), (), back, {}, frozenset({"centring"})), Weights())
    assert [(s.part, s.minutes, s.read) for s in steps[:-1]] == [("centring", 4, True), ("timing", 20, False)]


def test_a_check_says_what_is_off_and_on_though_it_should_not_be() -> None:
    proving = Proving("watch", off=("plate",), in_the_way=("side-cover",))
    practice = Practice(proofs={"watch": BACK})
    step, sew = all_steps(Job(machine_of([], []), practice, (), (), (proving,), {}), Weights())
    assert (step.do, step.part, step.phase, step.position) == ("check", "watch", "prove", BACK)
    assert step.notes == (
        "First turn the machine on its back.",
        "Done with the plate off: no order of this job has it on.",
        "Done with the side cover on: no order of this job has it off.",
    )
    assert sew.notes == ("First turn the machine upright.",)


def test_what_is_done_as_the_machine_lies_is_done_as_the_step_before_left_it() -> None:
    parts = [MachinePart("a"), MachinePart("b"), MachinePart("c")]
    practice = Practice({"a": Handling(BACK, ""), "b": Handling("", ""), "c": Handling("", "")})
    job = plan(machine_of(parts, []), practice, [Remedy("r", reach=("a", "b", "c"))])
    assert [(s.part, s.position) for s in steps_of(job, "take off")] == [("b", "upright"), ("c", "upright"), ("a", BACK)]
    assert {s.position for s in steps_of(job, "refit")} == {BACK}
    assert job.steps[-1].position == "upright"


def test_each_oil_point_once_after_the_first_part_that_touched_it_as_that_part_lies() -> None:
    machine = machine_of([MachinePart("cover"), MachinePart("gear", ("cover",))], [])
    practice = Practice({"gear": Handling(BACK, BACK, oil=("race", "bush")), "cover": Handling(oil=("hinge", "race"))})
    done = plan(machine, practice, [Remedy("r", reach=("gear",))]).steps
    assert [(s.do, s.part) for s in done if s.do in ("refit", "oil")] == [
        ("refit", "gear"), ("oil", "race"), ("oil", "bush"), ("refit", "cover"), ("oil", "hinge"),
    ]  # fmt: skip
    assert [s.position for s in done if s.do == "oil"] == [BACK, BACK, "upright"]


def test_parts_renewed_by_several_remedies_are_each_renewed_once_by_id() -> None:
    remedies = (Remedy("r", renew=("gear", "belt")), Remedy("s", renew=("belt", "cam")))
    assert Job(machine_of([], []), Practice(), remedies, (), (), {}).renewed == ("belt", "cam", "gear")


def test_cells_are_sorted_by_part_in_their_order() -> None:
    one, two, three = Cell(1, "gear", "screw", "joint"), Cell(2, "cover", "pin", "joint"), Cell(3, "gear", "shim", "loose")
    assert by_part([one, two, three]) == {"gear": (one, three), "cover": (two,)}
