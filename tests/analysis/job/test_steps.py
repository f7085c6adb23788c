"""What each step carries: tray cells, oil, checks, turns of the machine and notes."""

from __future__ import annotations

from generator.analysis.job import plan
from generator.analysis.job.types import Handling, Plan, Practice, SettingHandling, Step
from generator.analysis.machine import MachinePart, MachineSetting, Remedy
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
