"""The plain rules, on a case that can be reckoned by hand."""

from __future__ import annotations

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.check_order.rules import best_ratio, next_in_record
from generator.analysis.check_order.situation import Situation
from generator.analysis.machine import Machine, Remedy
from tests.analysis.check_order.order_hand_case import CASE, TRIAL


def test_the_step_of_most_probability_for_its_cost_comes_next() -> None:
    """Trial 0.5 / 2; needle 0.5 / 3; watch 0.2 / 3; lint 0.3 / 7. When the trial has failed: watch 0.5 / 3, lint 0.3 / 7."""
    start = Situation(CASE, CASE.hypotheses)
    assert best_ratio(start).id == "trial"
    assert best_ratio(start.after_check(TRIAL, 1)).id == "watch"
    assert next_in_record(start).id == "watch"


def _case(checks: tuple[Check, ...] = (), **remedies: float) -> Situation:
    """Causes of one share each, a remedy of so many minutes for each, and no proving sew."""
    hypotheses = tuple(Hypothesis(name, (name,), 1, Remedy(name, minutes=taken)) for name, taken in remedies.items())
    return Situation(Case(hypotheses, checks, Machine(), 0), hypotheses)


def _look(minutes: float, **sees: int) -> Check:
    return Check("a-look", minutes, (), ("one", "other"), sees)


def test_of_two_as_good_the_cheaper_then_a_remedy_then_the_first_by_its_id() -> None:
    twice = _look(4, b=0, c=1)
    assert best_ratio(_case((twice,), b=2, c=2)).id == "b"  # 1/2 for 2, 2/2 for 4: as good, and cheaper
    assert best_ratio(_case(b=2, a=2)).id == "a"
    assert best_ratio(_case((_look(2, b=0, c=1, d=1),), b=2, c=9, d=9)).id == "b"  # as good and as dear: a remedy


def test_what_takes_nothing_and_tells_nothing_for_certain_is_not_chosen() -> None:
    idle = _look(0, a=0, b=0, c=1, d=1)
    assert best_ratio(_case((idle,), a=3, b=4, c=5, d=6)).id == "a"
    sure = _look(0, a=0, b=1)
    assert best_ratio(_case((sure,), a=3, b=4)).id == "a-look"


def test_the_remedy_that_cures_the_greater_share_comes_first_of_those_that_take_as_long() -> None:
    """By hand: 0.9 / 3 for z, 0.1 / 3 for a; where z takes 30 it is 0.9 / 30 and a comes first."""
    for minutes, first in ((3, "z"), (30, "a")):
        hypotheses = Hypothesis("a", (), 0.1, Remedy("a", minutes=3)), Hypothesis("z", (), 0.9, Remedy("z", minutes=minutes))
        assert best_ratio(Situation(Case(hypotheses, (), Machine(), 0), hypotheses)).id == first


def test_a_check_counts_what_it_cures_and_what_it_leaves_to_a_single_remedy() -> None:
    """By hand, of four as likely, remedies 8 each, 0.25 / 8: look singles out a, 0.25 / 4; trial cures a and b, 0.5 / 9; both are better.

    A look that leaves b and c, whose remedy is the same, singles them out, too: 0.75 / 9 against 0.25 / 4.
    """
    look = Check("look", 4, (), ("a", "rest"), {"a": 0, "b": 1, "c": 1, "d": 1})
    trial = Check("trial", 9, (), ("cured", "not"), {"a": 0, "b": 0, "c": 1, "d": 1}, frozenset({0}))
    assert best_ratio(_case((look, trial), a=8, b=8, c=8, d=8)).id == "look"
    assert best_ratio(_case((trial,), a=8, b=8, c=8, d=8)).id == "trial"
    same = Remedy("same", minutes=8)
    hypotheses = tuple(Hypothesis(h, (), 1, same if h in "bc" else Remedy(h, minutes=90)) for h in "abcd")
    parted = Check("parted", 9, (), ("a", "b or c", "d"), {"a": 0, "b": 1, "c": 1, "d": 2})
    case = Case(hypotheses, (look, parted), Machine(), 0)
    assert best_ratio(Situation(case, hypotheses)).id == "parted"


def test_without_a_check_that_tells_the_first_remedy_of_the_hypotheses_is_done() -> None:
    assert next_in_record(_case(b=3, a=1)).id == "b"
    assert next_in_record(_case((_look(1, b=1, a=1),), b=3, a=1)).id == "b"
    assert next_in_record(_case((_look(1, b=1, a=0),), b=3, a=1)).id == "a-look"
