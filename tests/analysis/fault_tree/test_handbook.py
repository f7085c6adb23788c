"""Worked examples from outside the project."""

import pytest

from generator.analysis.fault_tree import importance, minimal_cut_sets, top_probability
from generator.analysis.tree import Gate
from tests.analysis.fault_tree.fault_trees import gate

# Pressure tank, NUREG-0492, Fault Tree Handbook (1981), chapter VIII; inputs from memory.
TANK_Q = {"T": 5e-6, "K2": 3e-5, "S": 1e-4, "S1": 3e-5, "K1": 3e-5, "R": 1e-4}


def tank() -> Gate:
    """Tank rupture: the tank itself, or the pump runs on with the pressure switch stuck."""
    relay = gate("any", "S1", "K1", "R", name="E5")
    stays = gate("any", gate("all", "S", relay, name="E3"), "K2", name="E2")
    return gate("any", "T", stays, name="E1")


def test_pressure_tank_has_the_handbooks_minimal_cut_sets() -> None:
    assert minimal_cut_sets(tank()).sets == (
        ("K2",), ("T",), ("K1", "S"), ("R", "S"), ("S", "S1"),
    )  # fmt: skip


def test_pressure_tank_probability_is_the_handbooks_sum_to_its_rounding() -> None:
    # The handbook adds the cut sets up, 3.5016e-5: a bound that the exact value misses by 2e-10.
    exact = top_probability(tank(), TANK_Q)
    assert exact.exact
    assert exact.value == pytest.approx(3.5016e-5, rel=1e-5)
    assert exact.value < 3.5016e-5


def test_pressure_tank_shares_are_the_handbooks() -> None:
    # T 14.3 %, K2 85.7 %, worked from the handbook's inputs.
    shares = importance(tank(), TANK_Q)
    assert shares["T"].fussell_vesely == pytest.approx(0.143, abs=5e-4)
    assert shares["K2"].fussell_vesely == pytest.approx(0.857, abs=5e-4)


def test_two_causes_together_or_a_third_alone() -> None:
    # Worked: .005 + .067 x .075 - .005 x .067 x .075 = .009999875.
    top = gate("any", gate("all", "E1", "E2"), "E3")
    value = top_probability(top, {"E1": 0.067, "E2": 0.075, "E3": 0.005}).value
    assert value == pytest.approx(0.009999875, abs=1e-15)


def test_two_of_three_alike() -> None:
    # Textbook closed form of the two-out-of-three vote: 3 q^2 - 2 q^3.
    top = gate("at_least", "a", "b", "c", k=2)
    q = dict.fromkeys("abc", 0.1)
    assert top_probability(top, q).value == pytest.approx(3 * 0.1**2 - 2 * 0.1**3)
    # Its Birnbaum importance: exactly one of the other two has failed, 2 q (1 - q).
    assert importance(top, q)["a"].birnbaum == pytest.approx(2 * 0.1 * 0.9)


def test_a_shared_event_is_not_counted_twice() -> None:
    # By distribution: (a or b) and (a or c) = a or (b and c), .5 + .5 x .25; a product gives .5625.
    top = gate("all", gate("any", "a", "b"), gate("any", "a", "c"))
    assert top_probability(top, dict.fromkeys("abc", 0.5)).value == pytest.approx(0.625)
