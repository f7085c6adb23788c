"""The check that is missing most, against trying every split with every policy."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from generator.analysis.check_order import solve
from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.coverage import ambiguity_groups, missing_check, tried_in_turn
from generator.analysis.coverage.missing import SOLVED_AGAIN, _PutIn, _sides
from generator.analysis.coverage.policy_run import PolicyRun
from generator.analysis.machine import Machine, MachinePart, Remedy
from tests.analysis.check_order.order_brute_force import least_minutes
from tests.analysis.check_order.order_cases import bench_case, random_case


def with_check(case: Case, shows: set[str], minutes: float) -> Case:
    sees = {h.id: 0 if h.id in shows else 1 for h in case.hypotheses}
    return replace(case, checks=(*case.checks, Check("new", minutes, (), ("yes", "no"), sees)))


def blind(*remedies: Remedy) -> Case:
    """One cause for each remedy, equal shares, no check at all."""
    hypotheses = tuple(Hypothesis(r.id, (r.id,), 1, r) for r in remedies)
    return Case(hypotheses, (), Machine({"plate": MachinePart("plate", (), 2, 2)}), 2)


def test_by_hand_a_check_between_two_remedies() -> None:
    """By hand: a 3 + 2 min, b 8 + 2 min, half each. Blind: 5 + 5 = 10. With it: 2 + 2.5 + 5 = 9.5."""
    case = blind(Remedy("a", minutes=3), Remedy("b", minutes=8))
    found = missing_check(case, solve(case), ["a", "b"], minutes=2)
    assert found.saves_minutes == pytest.approx(0.5)
    assert (found.shows, found.others) == (("a",), ("b",))  # as good as the other way round: the first by id
    assert found.exact and found.all_splits


def test_a_check_that_costs_more_than_it_saves_saves_nothing() -> None:
    """By hand: trying a first wastes 5 min in half of the cases."""
    case = blind(Remedy("a", minutes=3), Remedy("b", minutes=8))
    assert missing_check(case, solve(case), ["a", "b"], minutes=2.5).saves_minutes == pytest.approx(0)
    assert missing_check(case, solve(case), ["a", "b"], minutes=4).saves_minutes == 0


def test_one_remedy_needs_no_telling_apart() -> None:
    case = blind(Remedy("a"), Remedy("b"))
    with pytest.raises(ValueError, match="one remedy"):
        missing_check(case, solve(case), ["a"])


def _groups(case: Case) -> list[list[str]]:
    return [[h.id for h in g.hypotheses] for g in ambiguity_groups(case) if len(g.remedies) > 1]


@pytest.mark.parametrize("number", range(120))
def test_on_small_cases_the_saving_is_that_of_the_best_policy_of_the_best_split(number: int) -> None:
    """Every split of the group by cause, not by remedy alone, and every policy of each."""
    case = random_case(number, causes=(2, 5), checks=(0, 2))
    known, solution = least_minutes(case), solve(case)
    for group in _groups(case):
        sides = [{h for h, side in zip(group, p) if side} for p in product((0, 1), repeat=len(group))]
        best = max(known - least_minutes(with_check(case, s, 0.5)) for s in sides if 0 < len(s) < len(group))
        found = missing_check(case, solution, group, minutes=0.5)
        assert found.saves_minutes == pytest.approx(max(best, 0), abs=1e-9)
        assert found.exact
        again = least_minutes(with_check(case, set(found.shows), 0.5))
        assert known - again <= found.saves_minutes + 1e-9


@pytest.mark.parametrize("number", range(40))
def test_a_check_put_into_the_known_order_never_promises_too_much(number: int) -> None:
    case = random_case(number, causes=(3, 7), checks=(1, 4))
    solution = solve(case)
    put_in = _PutIn(case, solution, 1.0)
    for group in [*_groups(case), [h.id for h in case.hypotheses]]:
        shows = tuple(h for h in case.hypotheses if h.id == group[0])
        real = solution.expected_minutes - solve(with_check(case, {group[0]}, 1.0)).expected_minutes
        assert put_in.of(shows) <= real + 1e-9


@pytest.mark.parametrize("number", range(8))
def test_on_larger_cases_the_saving_is_a_floor_of_solving_again(number: int) -> None:
    case = bench_case(number, 11, 4)
    assert len(case.hypotheses) > SOLVED_AGAIN
    solution = solve(case)
    found = missing_check(case, solution, [h.id for h in case.hypotheses])
    again = solve(with_check(case, set(found.shows), 2.0))
    assert not found.exact
    assert again.exact and found.saves_minutes <= solution.expected_minutes - again.expected_minutes + 1e-9
    assert set(found.shows) | set(found.others) == {h.id for h in case.hypotheses}


def test_some_larger_cases_do_have_a_check_worth_finding() -> None:
    saves = []
    for number in range(8):
        case = bench_case(number, 11, 2)
        saves.append(missing_check(case, solve(case), [h.id for h in case.hypotheses]).saves_minutes)
    assert max(saves) > 0.5


@pytest.mark.parametrize("number", range(40))
def test_a_policy_replayed_with_everything_left_takes_its_expected_minutes(number: int) -> None:
    case = bench_case(number, 9, 8)
    solution = solve(case)
    replayed = PolicyRun(case).minutes(solution.policy, case.hypotheses, frozenset())
    assert replayed == pytest.approx(solution.expected_minutes, abs=1e-9)


@pytest.mark.parametrize("number", range(40))
def test_a_policy_replayed_with_less_left_is_a_policy_for_it(number: int) -> None:
    """No policy can beat the least minutes that brute force finds for what is left."""
    case = random_case(number, causes=(3, 5), checks=(0, 3))
    left = case.hypotheses[::2]
    share = sum(h.share for h in left)
    replayed = PolicyRun(case).minutes(solve(case).policy, left, frozenset())
    assert replayed >= share * least_minutes(case, [h.id for h in left]) - 1e-9


def test_remedies_tried_in_turn_are_found_at_the_end_of_an_order() -> None:
    """No check tells b from c; the check shows a. By the p / c rule b, the cheaper, comes first."""
    case = blind(Remedy("a", minutes=30), Remedy("b", minutes=3), Remedy("c", minutes=8))
    shows_a = Check("look", 0.5, (), ("yes", "no"), {"a": 0, "b": 1, "c": 1})
    case = replace(case, checks=(shows_a,))
    assert [[h.id for h in t] for t in tried_in_turn(case, solve(case).policy)] == [["b", "c"]]


def test_what_is_tried_in_turn_behind_a_first_remedy_and_a_check_is_found_too() -> None:
    """By hand: a takes no time and comes first; the check is worth its half minute, for d takes long."""
    case = replace(blind(Remedy("a"), Remedy("b", minutes=3), Remedy("c", minutes=8), Remedy("d", minutes=30)), proving_minutes=0)
    case = replace(case, checks=(Check("look", 0.5, (), ("yes", "no"), {"a": 1, "b": 1, "c": 1, "d": 0}),))
    assert [[h.id for h in t] for t in tried_in_turn(case, solve(case).policy)] == [["b", "c"]]


def test_a_remedy_tried_before_the_checks_is_not_a_set_of_causes_told_apart_by_trying() -> None:
    """By hand: a takes no time, so it comes first; then the check is worth its half minute."""
    case = replace(blind(Remedy("a"), Remedy("b", minutes=30), Remedy("c", minutes=30)), proving_minutes=0)
    look = Check("look", 0.5, (), ("yes", "no"), {"a": 0, "b": 0, "c": 1})
    case = replace(case, checks=(look,))
    assert tried_in_turn(case, solve(case).policy) == ()


@pytest.mark.parametrize(("remedies", "sides"), [(2, 2), (5, 2**5 - 2), (6, 6 + 4), (10, 8 + 7)])
def test_of_many_remedies_the_likeliest_are_shown_alone_and_the_first_few_together(remedies: int, sides: int) -> None:
    """The last remedy in the record is the likeliest, by two hypotheses of half its weight."""
    names = [f"r{n}" for n in range(remedies)]
    shares = [(name, n) for n, name in enumerate(names[:-1], 1)] + [(names[-1], remedies / 2)] * 2
    chosen = tuple(Hypothesis(f"h{n}", (f"h{n}",), share, Remedy(name)) for n, (name, share) in enumerate(shares))
    found = list(_sides(chosen, tuple(names)))
    assert found[:remedies][:8] == [frozenset({name}) for name in names[::-1][:8]]
    assert len(found) == len(set(found)) == sides
    if remedies > 5:
        assert found[-1] == frozenset(names[::-1][: sides - min(remedies, 8) + 1])


def test_a_check_that_shows_everything_is_nothing_but_its_minutes() -> None:
    case = blind(Remedy("a", minutes=3), Remedy("b", minutes=8))
    assert _PutIn(case, solve(case), 2).of(case.hypotheses) == pytest.approx(-2)


def test_a_cause_comes_by_every_remedy_before_its_own() -> None:
    """By the p / c rule: the cheaper first."""
    case = blind(Remedy("a", minutes=3), Remedy("b", minutes=8), Remedy("c", minutes=20))
    stops = PolicyRun(case).way_to(solve(case).policy, case.hypotheses, "c")
    assert [[h.id for h in left] for _, left, _ in stops] == [["a", "b", "c"], ["b", "c"], ["c"]]
