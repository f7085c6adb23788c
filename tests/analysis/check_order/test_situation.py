"""Where a job stands, on the case that can be reckoned by hand: plate 2 minutes, the gear behind it 8, the sew 2."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.situation import Situation
from tests.analysis.check_order.order_hand_case import CASE, DULL, GEAR, LINT, TRIAL, WATCH

START = Situation(CASE, CASE.hypotheses)
PLATE_OFF = Situation(CASE, CASE.hypotheses, frozenset({"plate"}))


def at(*left, opened: frozenset[str] = frozenset()) -> Situation:
    return Situation(CASE, left, opened)


def test_a_check_leaves_what_shows_the_outcome_and_what_it_opened_stays_open() -> None:
    turned = START.after_check(WATCH, 1)
    assert ([h.id for h in turned.left], turned.open_parts) == (["dull", "lint"], {"plate"})
    stood = at(*CASE.hypotheses, opened=frozenset({"gear"})).after_check(WATCH, 0)
    assert ([h.id for h in stood.left], stood.open_parts) == (["gear"], {"gear", "plate"})


def test_a_remedy_that_does_not_cure_leaves_the_others_with_its_parts_open() -> None:
    after = at(*CASE.hypotheses, opened=frozenset({"plate"})).after_remedy(GEAR.remedy)
    assert ([h.id for h in after.left], after.open_parts) == (["dull", "lint"], {"plate", "gear"})
    assert START.after_remedy(DULL.remedy).open_parts == frozenset()


def test_newly_opened_is_what_was_shut_by_id() -> None:
    assert START.newly_opened(["plate", "gear", "plate"]) == ("gear", "plate")
    assert PLATE_OFF.newly_opened(["plate", "gear"]) == ("gear",)


@pytest.mark.parametrize(("now", "watch", "gear"), [(START, 1 + 2, 2 + 8 + 2), (PLATE_OFF, 1, 8 + 2)])
def test_minutes_count_only_what_is_shut(now: Situation, watch: float, gear: float) -> None:
    assert now.check_minutes(WATCH) == watch
    assert now.remedy_minutes(GEAR.remedy) == gear


def test_each_remedy_once_in_the_order_of_the_hypotheses() -> None:
    assert at(LINT, GEAR, LINT, DULL).remedies() == (LINT.remedy, GEAR.remedy, DULL.remedy)


def test_the_last_remedy_is_the_only_one_left() -> None:
    assert at(GEAR, GEAR).last_remedy() == GEAR.remedy
    assert START.last_remedy() is None
    assert at(LINT, GEAR).last_remedy() is None
    assert at().last_remedy() is None


@pytest.mark.parametrize(
    ("left", "watch", "trial"),
    [
        ((DULL, LINT, GEAR), True, True),
        ((DULL, LINT), False, True),
        ((LINT, GEAR), True, False),
        ((DULL,), False, True),
        ((GEAR,), False, False),
    ],
)
def test_a_check_tells_if_it_parts_what_is_left_or_cures_it(left: tuple, watch: bool, trial: bool) -> None:
    """Watch shows the gear by itself; the trial, a needle, cures what is dull and shows the others the same."""
    assert (at(*left).tells(WATCH), at(*left).tells(TRIAL)) == (watch, trial)


def test_the_share_is_that_of_what_is_left_as_the_case_gives_it() -> None:
    assert START.share() == pytest.approx(1)
    assert at(LINT, GEAR).share() == pytest.approx(0.5)
