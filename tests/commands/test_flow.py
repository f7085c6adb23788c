"""`flow` as a person or another tool asks it."""

from __future__ import annotations

import pytest

from generator.commands.flow import flow
from tests.commands.asking import COMPLAINT, asked

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
