"""Holding power as a guide."""

import pytest

from generator.analysis.fasteners.holding import CAUTION, chart_rows
from generator.standards.holding import SET_SCREW_CHARTS
from generator.standards.notation import parse_thread
from tests.vectors.browser_only import holding_torque


@pytest.mark.parametrize(("size", "torque"), [("4", 20.0), ("8", 48.1)])
def test_holding_torque_on_a_quarter_inch_shaft_is_shigleys(size: str, torque: float) -> None:
    # Shigley, Mechanical Engineering Design, set-screw table: #4 160 lbf, #8 385 lbf.
    force = next(row.holding_force_lbf for row in SET_SCREW_CHARTS if row.size == size and row.source == "shigley")
    assert holding_torque(force, 0.25) == pytest.approx(torque, abs=0.05)


@pytest.mark.parametrize(("thread", "torques"), [("8-32", [15, 20]), ("10-32", [25, 36])])
def test_charts_that_differ_are_both_shown(thread: str, torques: list[float]) -> None:
    # Published charts differ: #8 15 or 20 lbf in, #10 25 or 36 lbf in.
    assert [row.seating_torque_lbf_in for row in chart_rows(parse_thread(thread))] == torques


def test_a_size_in_no_chart_gets_none() -> None:
    assert chart_rows(parse_thread("11/64-40")) == ()


def test_a_larger_screw_holds_more_in_one_chart() -> None:
    forces = [row.holding_force_lbf for row in SET_SCREW_CHARTS if row.source == "shigley"]
    assert forces == sorted(forces)


def test_the_caution_names_moulded_gears_and_gives_no_order() -> None:
    assert "moulded gears" in CAUTION and "not an order" in CAUTION


@pytest.mark.parametrize(("force", "diameter"), [(0, 1), (100, 0), (100, -0.25)])
def test_nothing_holds_nothing(force: float, diameter: float) -> None:
    with pytest.raises(ValueError, match="more than zero"):
        holding_torque(force, diameter)


def test_a_force_of_one_unit_holds_too() -> None:
    assert holding_torque(0.5, 1) == 0.25
