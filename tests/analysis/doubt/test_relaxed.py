"""The certain world of a doubtful case, item by item, and its bound against brute force."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, Doubt, plain
from generator.analysis.doubt.relaxed import certain_bound, relaxed
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_brute_force import least_minutes
from tests.analysis.doubt.doubt_by_hand import MOTOR, doubtful
from tests.analysis.doubt.doubt_cases import small_doubt


def told(**more: object) -> Doubt:
    """Motor 0.36, 39 minutes and a cover of 4; belt 0.54, 7 minutes; neither 0.1; a proving sew of 2, to stop 15, to come back 45."""
    return replace(doubtful().doubt, **more)


def test_the_unlisted_cause_is_a_hypothesis_that_takes_a_stop_to_think() -> None:
    """15 minutes, of which the proving sew is 2; at each check it shows what a sound machine shows."""
    case = relaxed(told())
    assert {h.id: h.share for h in case.hypotheses} == pytest.approx({"motor-worn": 0.36, "belt-loose": 0.54, SOMETHING_ELSE: 0.1})
    assert case.hypotheses[-1].remedy == Remedy(SOMETHING_ELSE, minutes=13)
    assert [c.sees for c in case.checks[:2]] == [
        {"motor-worn": 1, "belt-loose": 0, SOMETHING_ELSE: 1},
        {"motor-worn": 0, "belt-loose": 1, SOMETHING_ELSE: 1},
    ]
    assert case.proving_minutes == 2


def test_a_stop_that_takes_less_than_a_proving_sew_takes_no_more_than_that() -> None:
    """1 minute for all: the proving sew is no dearer than the stop, and the stop's own minutes are none."""
    case = relaxed(told(stop_minutes=1.0))
    assert (case.proving_minutes, case.hypotheses[-1].remedy.minutes) == (1, 0)


def test_without_an_unlisted_cause_nothing_is_added_and_a_short_stop_shortens_no_sew() -> None:
    doubt = told(unlisted=0.0, stop_minutes=1.0)
    case = relaxed(doubt)
    assert {h.id: h.share for h in case.hypotheses} == pytest.approx({"motor-worn": 0.4, "belt-loose": 0.6})
    assert case.checks[:2] == doubt.case.checks
    assert case.proving_minutes == 2


def test_a_trial_that_ends_every_job_stands_for_a_cause_left_in_the_machine() -> None:
    *_, leaving = relaxed(told()).checks
    assert (leaving.minutes, leaving.outcomes, leaving.reach, leaving.cured) == (45, ("left",), (), {0})
    assert leaving.sees == {"motor-worn": 0, "belt-loose": 0, SOMETHING_ELSE: 0}


@pytest.mark.parametrize(
    ("come_back", "motor"),
    [
        (45.0, MOTOR.remedy),
        (43.0, MOTOR.remedy),  # 37 + 2 + 4, as dear as that
        (42.0, Remedy("renew:motor", minutes=37)),  # with the cover dearer: without the cover, 39 less the sew
        (30.0, Remedy("renew:motor", minutes=28)),
        (1.0, Remedy("renew:motor", minutes=0)),
    ],
)
def test_a_remedy_dearer_than_the_way_out_becomes_as_cheap_with_nothing_to_open(come_back: float, motor: Remedy) -> None:
    assert relaxed(told(come_back_minutes=come_back)).hypotheses[0].remedy == motor


def test_where_one_remedy_cures_all_that_it_may_be_the_certain_world_bounds_nothing() -> None:
    one = Hypothesis("dull", ("dull",), 1, Remedy("renew", minutes=3))
    assert certain_bound(plain(Case((one,), (), Machine(), 2), unlisted=0.0)) == 0.0


def test_of_two_causes_without_a_check_one_remedy_comes_first() -> None:
    """5 minutes for all, 10 for the half that it leaves: 10. No less than each cause by its own remedy, 7.5, and no more than that."""
    causes = tuple(Hypothesis(i, (i,), 1, Remedy(i, minutes=m)) for i, m in (("a", 5), ("b", 10)))
    doubt = plain(Case(causes, (), Machine(), 0), unlisted=0.0, cures=1.0, come_back_minutes=1000)
    assert 7.5 <= certain_bound(doubt) <= 10


def test_no_bound_is_above_brute_force() -> None:
    bounds = {number: certain_bound(small_doubt(number)) for number in range(80)}
    least = {number: least_minutes(small_doubt(number)) for number in bounds}
    assert [n for n in bounds if bounds[n] > least[n] + 1e-9] == []
    assert sum(bounds[n] > least[n] / 2 for n in bounds) > len(bounds) / 4  # and it is of some use: a bound of 0 would hold, too
