"""How far a policy is written out: shares and minutes are made up here, the next step is reckoned by hand.

Weights (motor, belt, unlisted) by Bayes' rule from 0.36, 0.54, 0.1, trust 0.95, and what the next step then is:

- belt right: 0.342, 0.027, 0.095, together 0.464. Look at the motor, 4.5 min over 0.342/0.464, is 6.1; the belt 7 over
  0.027/0.464 is 120; to stop is 0.9 (15 + 45) = 54. So the look comes next.
- then brushes worn: 0.3249, 0.00135, 0.00475, together 0.331. The motor, proved and open, is 39 over 0.98, 39.7. So it comes next.
- or brushes good: 0.0171, 0.02565, 0.09025, together 0.133. The belt is 7 over 0.193, 36.3. So it comes next.
- then the belt set in vain: the belt has 0.002565 and is done, the motor is not proved: to stop is all that is left.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.doubt.standing import not_cured, seen, start
from generator.analysis.doubt.written import written
from generator.analysis.policy import BeyondNode, Branch, CheckNode, RemedyNode, StopNode, expected_minutes
from tests.analysis.doubt.doubt_by_hand import doubtful

TABLE = doubtful()
ENDS = StopNode(0.109375, 40.0, 0.0625, ())
GOOD = RemedyNode("set:belt", (), 7.0, 0.015625, ENDS)
WORN = RemedyNode("renew:motor", (), 39.0, 0.3125, StopNode(0.0625, 20.0, 0.0, ()))
RIGHT = CheckNode("look-motor", ("cover",), 4.5, (Branch(0, "brushes worn", 0.375, WORN), Branch(1, "brushes good", 0.125, GOOD)))
LOOSE = RemedyNode("set:belt", (), 7.0, 0.4375, StopNode(0.0625, 30.0, 0.0, ()))
WHOLE = CheckNode("look-belt", (), 1.0, (Branch(0, "loose", 0.5, LOOSE), Branch(1, "right", 0.5, RIGHT)))
"All shares are sums of 64ths, so that they add up without rounding."


def test_with_no_least_share_all_is_written() -> None:
    assert written(TABLE, WHOLE, start(TABLE), 0.0) == WHOLE


def test_what_exactly_the_least_share_reaches_is_written_and_what_fewer_reach_is_named() -> None:
    """The half that comes to each side of the first check is written; 1/8 is less, and so is 3/8.

    Brushes worn: (39 x 0.375 + 20 x 0.0625) / 0.375 = 42 1/3. Good: (7 x 0.125 + 40 x 0.109375) / 0.125 = 42.
    """
    found = written(TABLE, WHOLE, start(TABLE), 0.5)
    loose, right = (b.then for b in found.branches)
    assert loose == LOOSE  # what ends in a stop is a stop, however few come to it
    assert [b.then for b in right.branches] == [
        BeyondNode(0.375, pytest.approx(42 + 1 / 3), "renew:motor"),
        BeyondNode(0.125, pytest.approx(42.0), "set:belt"),
    ]


def test_a_check_that_too_few_come_to_is_named_after_what_was_seen_before_it() -> None:
    """4.5 for the half, and below it 39 x 0.375 + 20 x 0.0625 + 7 x 0.125 + 40 x 0.109375: together 23.375 / 0.5 = 46.75."""
    found = written(TABLE, WHOLE, start(TABLE), 0.6)
    assert [b.then.next for b in found.branches] == ["set:belt", "look-motor"]
    assert found.branches[1].then == BeyondNode(0.5, pytest.approx(46.75), "look-motor")


def test_after_a_remedy_the_next_step_is_that_of_a_job_it_did_not_cure() -> None:
    """From 0.36, 0.54: the belt set in vain leaves the look at the motor, not the look at the belt, which is best at the start."""
    left = CheckNode("look-motor", ("cover",), 4.5, (Branch(0, "brushes worn", 0.25, None), Branch(1, "brushes good", 0.25, ENDS)))
    tried = RemedyNode("set:belt", (), 7.0, 0.5, left)
    assert written(TABLE, tried, start(TABLE), 0.75) == replace(tried, otherwise=BeyondNode(0.5, pytest.approx(4.5 + 4.375 / 0.5), "look-motor"))
    deep = written(TABLE, tried, start(TABLE), 0.25).otherwise
    assert [b.then for b in deep.branches] == [None, ENDS]


def test_where_nothing_is_worth_doing_the_end_names_no_step_and_keeps_its_minutes() -> None:
    now = start(TABLE)
    for check in (0, 1):
        now = seen(TABLE, now, check, 1)
    beyond = BeyondNode(0.5, 33.0)
    assert written(TABLE, beyond, not_cured(TABLE, now, 1), 0.0) == BeyondNode(0.5, 33.0, "")
    assert written(TABLE, beyond, now, 0.0) == BeyondNode(0.5, 33.0, "set:belt")


def test_a_remedy_after_which_nothing_can_be_wrong_stays_so() -> None:
    sure = RemedyNode("set:belt", (), 7.0, 1.0, None)
    assert written(TABLE, sure, start(TABLE), 0.5) == sure


@pytest.mark.parametrize("least", [0.0, 0.1, 0.125, 0.2, 0.375, 0.4, 0.5, 0.9, 1.0])
def test_the_minutes_stay_the_same_however_little_is_written(least: float) -> None:
    assert expected_minutes(written(TABLE, WHOLE, start(TABLE), least)) == pytest.approx(expected_minutes(WHOLE))
