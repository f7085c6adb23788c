"""What is worth renewing while open, against the difference of two whole plans."""

from __future__ import annotations

import pytest

from generator.analysis.job import plan
from generator.analysis.job.types import Handling, Practice
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy
from tests.analysis.job.job_cases import machine_of, random_case, zigzag_domestic


def test_extra_and_later_minutes_are_the_differences_of_whole_plans() -> None:
    weighed = 0
    for number in range(200):
        machine, practice, remedies = random_case(number)
        job = plan(machine, practice, remedies)
        for other in job.while_open:
            own = Remedy("own", renew=(other.part,))
            more = plan(machine, practice, [*remedies, own])
            assert more.minutes - job.minutes == pytest.approx(other.extra_minutes, abs=1e-9)
            assert plan(machine, practice, [own]).minutes == pytest.approx(other.later_minutes)
            weighed += 1
    assert weighed > 200


def test_those_listed_wear_are_not_renewed_and_lie_within_reach() -> None:
    for number in range(200):
        machine, practice, remedies = random_case(number)
        job = plan(machine, practice, remedies)
        off = {s.part for s in job.steps if s.do == "take off"}
        within = {
            p for p in machine.parts
            if practice.parts[p].wears and set(machine.parts[p].behind) <= off and p not in job.parts
        }  # fmt: skip
        assert {w.part for w in job.while_open} == within


def test_the_most_minutes_saved_come_first_and_ties_by_id() -> None:
    machine = machine_of(
        [MachinePart("cover", (), 5, 5), *(MachinePart(p, ("cover",), 1, 1) for p in ("c", "a", "b")), MachinePart("d", ("cover",), 1, 1, ("t",))],
        [MachineSetting("t", 9), MachineSetting("u", 1)],
    )
    practice = Practice({p: Handling(wears=True) for p in "abd"})
    job = plan(machine, practice, [Remedy("r", renew=("c",), set=("t",))])
    assert [(w.part, w.extra_minutes, w.later_minutes, w.saved_minutes) for w in job.while_open] == [
        ("d", 2, 23, 21),
        ("a", 2, 14, 12),
        ("b", 2, 14, 12),
    ]


def test_what_saves_as_much_but_for_the_dust_of_binary_sums_is_told_by_id() -> None:
    """Both save the cover, 2, and the sew, 2; b also a setting of 4 ten-millionths of a minute, which is made here anyhow."""
    machine = machine_of(
        [
            MachinePart("cover", (), 1, 1),
            MachinePart("gear", ("cover",)),
            MachinePart("a", ("cover",), 1, 1),
            MachinePart("b", ("cover",), 1, 1, ("dust",)),
        ],
        [MachineSetting("dust", 4e-7)],
    )
    worn = Practice({p: Handling(wears=True) for p in "ab"})
    job = plan(machine, worn, [Remedy("r", renew=("gear",), set=("dust",))])
    assert [w.part for w in job.while_open] == ["a", "b"]
    assert job.while_open[1].saved_minutes - job.while_open[0].saved_minutes == pytest.approx(4e-7, abs=1e-9)


MAINS = Machine(
    {
        "cover": MachinePart("cover", (), 2, 3),
        "belt": MachinePart("belt", ("cover",), 1, 1),
        "motor": MachinePart("motor", ("cover",), 9, 8, mains=True),
        "lamp": MachinePart("lamp", ("cover",), 0.5, 0.25, mains=True),
    },
    mains_test=6,
)


@pytest.mark.parametrize(
    ("remedy", "extra"),
    [
        (Remedy("r", renew=("belt",)), 9 + 8 + 6),
        (Remedy("r", renew=("lamp",)), 9 + 8),
        (Remedy("r", reach=("cover",), clean=("lamp",)), 9 + 8),
    ],
)
def test_a_mains_part_brings_the_tests_before_power_unless_the_job_has_them(remedy: Remedy, extra: float) -> None:
    """By hand: off 9, on 8, tests 6 if nothing else of the mains is touched; later the cover 5, the sew 2 and the tests as well."""
    job = plan(MAINS, Practice({"motor": Handling(wears=True)}), [remedy])
    (motor,) = job.while_open
    assert (motor.extra_minutes, motor.later_minutes) == (extra, 5 + 9 + 8 + 6 + 2)


def test_a_part_of_no_mains_brings_no_tests() -> None:
    job = plan(MAINS, Practice({"belt": Handling(wears=True)}), [Remedy("r", renew=("lamp",))])
    assert [(w.part, w.extra_minutes, w.later_minutes) for w in job.while_open] == [("belt", 2, 5 + 2 + 2)]


def test_a_wearing_part_that_is_off_already_costs_nothing_more() -> None:
    """Common practice, no source: a needle that is out is renewed."""
    machine, practice = zigzag_domestic()
    job = plan(machine, practice, [Remedy("r", renew=("hook-gear",))])
    assert {w.part: w.extra_minutes for w in job.while_open}["needle"] == 0


def test_renewing_the_other_gear_of_a_pair_now_saves_the_way_in_and_the_timing() -> None:
    """Common practice, no source: moulded gears fail in pairs."""
    machine, practice = zigzag_domestic()
    job = plan(machine, practice, [Remedy("r", renew=("hook-gear",))])
    other = {w.part: w for w in job.while_open}["lower-shaft-gear"]
    assert other.extra_minutes == 5 + 7 + 10
    assert other.saved_minutes == (2 + 2) + 20 + 6 + (0.5 + 0.5 + 1 + 1.5) + 2
