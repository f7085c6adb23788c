"""What is taken where the records and the shop say nothing."""

from __future__ import annotations

import pytest

from generator.analysis.job.types import Handling, Plan, Practice, SettingHandling, Step, Weights, WhileOpen, lies_after
from generator.analysis.machine import MachineWait


def test_a_part_that_no_record_speaks_of_comes_off_by_hand_upright_and_does_not_wear() -> None:
    said_nothing = Practice().part("cover")
    assert (said_nothing.off_position, said_nothing.on_position) == ("upright", "upright")
    assert not (said_nothing.wears or said_nothing.off_tools or said_nothing.on_tools or said_nothing.joints)
    assert Practice({"cover": Handling("on-its-back")}).part("cover") == Handling("on-its-back")


def test_a_setting_that_no_record_speaks_of_is_made_by_hand_upright_and_proved_by_the_sew() -> None:
    said_nothing = Practice().setting("timing")
    assert (said_nothing.position, said_nothing.tools, said_nothing.proved_by) == ("upright", (), "")
    told = SettingHandling("on-its-back", ("feeler",))
    assert Practice(settings={"timing": told}).setting("timing") == told


def test_a_shop_that_says_nothing_sews_two_minutes_and_turns_the_machine_to_spare_more_than_ten_tools() -> None:
    """The figures that `way_in` and the reference of the shop's settings promise; an estimate, no source."""
    assert Weights() == Weights(proving_minutes=2, position_change=10, tool_change=1)


def test_a_step_takes_no_minutes_and_reads_nothing_unless_it_says_so() -> None:
    step = Step("renew", "gear", "work")
    assert step.minutes == 0
    assert step.read is False


@pytest.mark.parametrize(("extra", "later", "saved"), [(6, 20, 14), (9, 5, -4)])
def test_minutes_saved_are_those_of_a_later_job_less_those_of_this_one(extra: float, later: float, saved: float) -> None:
    assert WhileOpen("pinion", extra, later).saved_minutes == saved


def test_the_waiting_of_a_plan_is_that_of_its_steps() -> None:
    steps = [Step("remedy", "soak", "work", 12, wait=MachineWait(m, "the oil creeps in")) for m in (10, 0.5)]
    assert Plan((*steps, Step("sew", "", "prove")), (), 24, (), (), (), (), 0, 0, True).waiting == 10.5


def test_the_machine_lies_as_the_last_part_that_minds_had_it() -> None:
    lying = Practice({"a": Handling("on-its-back"), "b": Handling("on-its-face"), "c": Handling("")})
    assert lies_after(["a", "b", "c"], lying) == "on-its-face"
    assert lies_after(["b", "a"], lying) == "on-its-back"
    assert lies_after(["c"], lying) == lies_after([], lying) == "upright"
