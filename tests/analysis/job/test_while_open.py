"""What is worth renewing while open, against the difference of two whole plans."""

from __future__ import annotations

import pytest

from generator.analysis.job import plan
from generator.analysis.job.types import Handling, Practice
from generator.analysis.machine import MachinePart, MachineSetting, Remedy
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
