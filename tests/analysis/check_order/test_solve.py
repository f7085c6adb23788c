"""A solution says what it found and how sure it is of it, on cases that can be reckoned by hand."""

from __future__ import annotations

from random import Random

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis, solve, solve_from
from generator.analysis.machine import Machine, MachinePart, Remedy
from generator.analysis.policy import CheckNode, RemedyNode, expected_minutes
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_hand_case import CASE
from tests.analysis.check_order.order_plain import ratio_order, record_order


def test_the_hand_case_is_solved_and_said_to_be() -> None:
    """By hand: trial 2; for half of all, plate 2 and watch 1; gear 10 for a fifth, lint 5 for three tenths: 7."""
    found = solve(CASE)
    assert found.expected_minutes == found.lower_bound == pytest.approx(7)
    assert found.exact is True
    assert found.states >= 1
    assert found.expected_minutes == expected_minutes(found.policy)
    trial = found.policy
    assert isinstance(trial, CheckNode) and (trial.check, trial.opens) == ("trial", ())
    watch = trial.branches[1].then
    assert isinstance(watch, CheckNode) and (watch.check, watch.opens, watch.minutes) == ("watch", ("plate",), 3)
    assert [branch.then.remedy for branch in watch.branches] == ["renew-gear", "clean"]


def test_from_the_middle_with_the_plate_open_nothing_is_paid_for_it() -> None:
    """By hand: watch 1, then gear 10 for two fifths and lint 5 for three: 8. Given in any order."""
    for left in (["lint", "gear"], ["gear", "lint"]):
        found = solve_from(CASE, left, ["plate"])
        assert found.expected_minutes == pytest.approx(1 + 0.4 * 10 + 0.6 * 5)
        assert isinstance(found.policy, CheckNode) and found.policy.opens == ()
        assert [branch.share for branch in found.policy.branches] == pytest.approx([0.4, 0.6])


def test_one_left_is_put_right_at_once_without_a_search() -> None:
    found = solve_from(CASE, ["gear"], ["gear"], budget=0)
    assert found.policy == RemedyNode("renew-gear", ("plate",), 2 + 2, 1.0, None)
    assert (found.expected_minutes, found.lower_bound, found.exact, found.states) == (4, 4, True, 0)


def test_without_search_it_is_not_said_to_be_the_best_and_the_bound_is_not_above_it() -> None:
    found = solve(CASE, budget=0)
    assert (found.exact, found.states) == (False, 0)
    assert found.lower_bound <= 7 + 1e-9
    assert found.expected_minutes >= 7 - 1e-9


def test_a_cover_off_for_one_check_is_not_paid_again_where_the_policy_is_written_out() -> None:
    """By hand, the cover 4: look 1 under it tells a from b and c, feel 1 under it b from c; each remedy 20, c's under it.

    Look first, 5, then feel, 1, for two thirds; no trial without the cover: 5 + 2/3 + 20.
    """
    remedies = {"a": Remedy("a", minutes=20), "b": Remedy("b", minutes=20), "c": Remedy("c", reach=("cover",), minutes=20)}
    found = tuple(Hypothesis(i, (), 1, r) for i, r in remedies.items())
    look = Check("look", 1, ("cover",), ("one", "other"), {"a": 0, "b": 1, "c": 1})
    feel = Check("feel", 1, ("cover",), ("one", "other"), {"a": 1, "b": 0, "c": 1})
    case = Case(found, (look, feel), Machine({"cover": MachinePart("cover", (), 2, 2)}), 0)
    solution = solve(case)
    assert solution.expected_minutes == pytest.approx(5 + 2 / 3 + 20)
    assert solution.lower_bound == pytest.approx(5 + 2 / 3 + 20)


def test_two_causes_that_nothing_tells_apart_and_one_remedy_cures_are_put_right_together() -> None:
    """By hand: two thirds at 3 minutes, then the last third 10 more: 3 + 10 / 3."""
    renew, clean = Remedy("renew", minutes=3), Remedy("clean", minutes=10)
    case = Case((Hypothesis("x", (), 1, renew), Hypothesis("z", (), 1, clean), Hypothesis("y", (), 1, renew)), (), Machine(), 0)
    found = solve(case)
    assert found.expected_minutes == pytest.approx(3 + 10 / 3)
    assert isinstance(found.policy, RemedyNode) and found.policy.cured_share == pytest.approx(2 / 3)


@pytest.mark.parametrize("number", range(60))
def test_minutes_and_bound_are_those_of_the_best_of_all_policies_from_anywhere(number: int) -> None:
    case, rng = random_case(number + 600, causes=(2, 5), checks=(1, 5)), Random(number)
    left = [h.id for h in case.hypotheses if rng.random() < 0.7] or [case.hypotheses[0].id]
    opened = case.machine.way_in(rng.sample(sorted(case.machine.parts), 1))
    least = least_minutes(case, left, set(opened))
    found = solve_from(case, left, opened)
    assert found.exact
    assert found.lower_bound == pytest.approx(least, abs=1e-9)
    assert expected_minutes(found.policy) == pytest.approx(least, abs=1e-9)
    cut = solve_from(case, left, opened, budget=0)
    assert cut.lower_bound <= least + 1e-9 <= cut.expected_minutes + 2e-9


def test_where_the_search_is_given_up_a_plain_rule_that_does_better_is_followed() -> None:
    """Of four hundred cases of chance this is the one where the policy without search is not as good; the rule's is the best."""
    case = random_case(244, causes=(2, 7), checks=(0, 7))
    plain = min(record_order(case), ratio_order(case))
    assert solve(case, budget=0).expected_minutes == pytest.approx(plain)
    assert solve(case).expected_minutes == pytest.approx(plain)


@pytest.mark.parametrize("number", [5, 7])
def test_the_bound_is_below_the_best_where_the_policy_found_is_not_the_best(number: int) -> None:
    case = bench_case(number, 7, 6)
    least, cut = solve(case).expected_minutes, solve(case, budget=0)
    assert cut.lower_bound <= least + 1e-9
    assert least + 0.01 < cut.expected_minutes


def test_a_budget_of_as_many_states_as_it_takes_is_enough_and_one_fewer_is_not() -> None:
    case = bench_case(0, 7, 6)
    whole = solve(case).states
    assert whole > 1
    assert solve(case, budget=whole).exact
    cut = solve(case, budget=whole - 1)
    assert (cut.exact, cut.states) == (False, whole - 1)
