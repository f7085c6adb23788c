"""`flow` as a person or another tool asks it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.doubt.order import Order
from generator.analysis.policy import StopNode
from generator.commands.flow import flow, proof
from tests.commands.asking import COMPLAINT, asked, run

pytestmark = pytest.mark.usefixtures("in_sound_folder")


def test_flow_gives_a_policy_whose_minutes_can_be_added_up_again() -> None:
    told = asked(flow, *COMPLAINT)
    assert {"policy", "expected_minutes", "record_order_minutes", "ratio_order_minutes", "exact", "lower_bound", "hypotheses"} <= set(told)

    def below(node) -> tuple[float, float]:
        """Share of the whole that comes here, and its minutes times that share."""
        if node is None:
            return 0.0, 0.0
        if "stop" in node or "beyond" in node:
            return node["share"], node["share"] * node.get("beyond", node.get("minutes"))
        if "check" in node:
            parts = [below(o["then"]) for o in node["outcomes"]]
            share = sum(o["share"] for o in node["outcomes"])
        else:
            parts = [below(node["else"])]
            share = node["cured_share"] + parts[0][0]
        return share, node["minutes"] * share + sum(minutes for _, minutes in parts)

    assert below(told["policy"]) == pytest.approx((1, told["expected_minutes"]))
    assert told["expected_minutes"] <= min(told["record_order_minutes"], told["ratio_order_minutes"]) + 1e-9


def test_the_lines_say_each_step_its_outcomes_what_follows_and_what_the_order_takes() -> None:
    minutes = asked(flow, *COMPLAINT)["expected_minutes"]
    lines = run(flow, *COMPLAINT).output.splitlines()
    step = lines.index(f"1  Watch the hook (3 min, open plate; {minutes:.1f} still to expect)")
    assert lines[step + 1].startswith("     1 It stands still: renew:hook-gear (")
    assert lines[step + 3].startswith("     3 It turns evenly: renew:needle+clean:plate (")
    assert lines[step + 4].startswith("     - None of these, or it cannot be done: ")
    assert f"{minutes:.1f} min expected (none takes fewer that does each step at most once and sees a sign before a dear part)." in lines


def test_an_order_that_is_not_proved_the_best_says_what_none_can_go_below() -> None:
    order = Order(StopNode(1, 30, 1, ()), 30, False, 12.34, 30)
    assert proof(order) == "not proved the best; none takes fewer than 12.3"
    assert "fewer that does each step at most once" in proof(replace(order, exact=True))
