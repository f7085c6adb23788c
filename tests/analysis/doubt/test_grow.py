"""A policy grown by a rule that is written out: every figure of its nodes reckoned by hand.

Motor 0.36, belt 0.54, neither 0.1; readings right in 95 of 100, remedies cure 9 in 10; to stop is 15, with a listed cause 60.

- Brushes worn: 0.342 + 0.027 + 0.005 = 0.374. The motor, cover off: 39 minutes, cures 0.3078. Left 0.0662: motor 0.0342, belt 0.027.
- Brushes good: 0.018 + 0.513 + 0.095 = 0.626. The belt: 7 minutes, cures 0.4617. Left 0.1643: motor 0.018, belt 0.0513.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.grow import STOP, Grower, Move, Rule
from generator.analysis.doubt.standing import Standing, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import BeyondNode, Branch, CheckNode, RemedyNode, StopNode
from tests.analysis.doubt.doubt_by_hand import doubtful

LOOK_AT_BELT, LOOK_AT_MOTOR, RENEW, SET = Move("check", 0), Move("check", 1), Move("remedy", 0), Move("remedy", 1)


def look_first(table: Table, now: Standing) -> Move:
    """At the motor; then what was seen is put right, and one stops."""
    if not now.checked:
        return LOOK_AT_MOTOR
    return STOP if now.tried else RENEW if now.proved else SET


def always(*moves: Move) -> Rule:
    """So many moves in turn, then a stop."""
    left = iter(moves)
    return lambda table, now: next(left, STOP)


def about(value: float) -> float:
    return pytest.approx(value)


WORN = RemedyNode("renew:motor", (), 39, about(0.3078), StopNode(about(0.0662), about(15 + 45 * 0.0612 / 0.0662), about(0.0612), ()))
GOOD = RemedyNode(
    "set:belt", (), 7, about(0.4617), StopNode(about(0.1643), about(15 + 45 * 0.0693 / 0.1643), about(0.0693), ("renew:motor",))
)


def test_every_node_has_its_minutes_its_shares_and_what_it_opens() -> None:
    """The cover is opened by the look and is off for the motor; what was put right is not named at the stop, the unproved motor is."""
    table = doubtful()
    branches = Branch(0, "brushes worn", about(0.374), WORN), Branch(1, "brushes good", about(0.626), GOOD)
    assert Grower(table, look_first).policy(start(table)) == CheckNode("look-motor", ("cover",), 4.5, branches)
    assert Grower(table, always(LOOK_AT_BELT)).policy(start(table)).opens == ()
    shut = Grower(table, always(RENEW)).policy(start(table))
    assert (shut.opens, shut.minutes) == (("cover",), 43)


def test_where_fewer_come_than_the_least_share_the_estimate_stands_in_minutes_of_a_job() -> None:
    """2 minutes (times share) over 0.374; with no more than the share that comes nothing is left out."""
    table = doubtful()
    asked = []
    found = Grower(table, look_first, 0.5, lambda table, now: asked.append(now.share) or 2.0).policy(start(table))
    worn, good = (b.then for b in found.branches)
    assert worn == BeyondNode(about(0.374), about(2 / 0.374), "")
    assert good == replace(GOOD, otherwise=BeyondNode(about(0.1643), about(2 / 0.1643)))
    assert asked == [about(0.374), about(0.1643)]
    exactly = start(table)._replace(weights=(0.25, 0.25, 0.0))
    assert isinstance(Grower(table, always(), 0.5, lambda table, now: 2.0).policy(exactly), StopNode)


def test_without_an_estimate_or_a_least_share_all_is_followed() -> None:
    table = doubtful()
    assert Grower(table, look_first, estimate=lambda table, now: 2.0).policy(start(table)).branches[0].then == WORN
    assert Grower(table, look_first, 0.5).policy(start(table)).branches[0].then == WORN


def test_an_outcome_that_is_nothing_but_rounding_is_left_out() -> None:
    """1e-15 of the jobs and less; of a trial, the outcome that ends the job has nothing after it."""
    certain = Table(replace(doubtful().doubt, readings=plain(doubtful().doubt.case, 1.0).readings))
    now = Standing((1e-15, 0.5, 0.0))
    assert [b.outcome for b in Grower(certain, always(LOOK_AT_MOTOR)).policy(now).branches] == [1]
    now = Standing((2e-15, 0.5, 0.0))
    assert [b.outcome for b in Grower(certain, always(LOOK_AT_MOTOR)).policy(now).branches] == [0, 1]
    assert Grower(certain, always()).grow(Standing((1e-15, 0.0, 0.0))) is None
    assert Grower(certain, always()).grow(Standing((2e-15, 0.0, 0.0))) is not None


def test_a_trial_that_cures_ends_the_job() -> None:
    """Of 0.54 belts it cures 95 of 100; the rest of all jobs goes on."""
    trial = Check("tighten", 1.5, (), ("cured", "still there"), {"motor-worn": 1, "belt-loose": 0}, frozenset({0}))
    table = doubtful(trial)
    cured, still = Grower(table, always(Move("check", 2))).policy(start(table)).branches
    assert cured == Branch(0, "cured", about(0.513), None)
    assert (still.share, type(still.then)) == (about(0.487), StopNode)


def test_seldom_is_below_one_in_twenty_of_the_jobs_at_the_check() -> None:
    certain = Table(replace(doubtful().doubt, readings=plain(doubtful().doubt.case, 1.0).readings))
    for motor, belt, seldom in ((0.05, 0.95, False), (0.04, 0.96, True), (0.03, 0.47, False), (0.02, 0.48, True)):
        found = Grower(certain, always(LOOK_AT_MOTOR)).policy(Standing((motor, belt, 0.0)))
        assert [b.unlikely for b in found.branches] == [seldom, False]


def stopped(weights: tuple[float, ...], **more: int) -> tuple[str, ...]:
    """What a stop names of a belt to set, and a motor and a lamp to renew that are dear."""
    causes = tuple(Hypothesis(i, (i,), 1, Remedy(i)) for i in ("belt", "motor", "lamp"))
    table = Table(plain(Case(causes, (), Machine(), 0), dear=frozenset({"motor", "lamp"})))
    return Grower(table, always()).policy(Standing(weights, **more)).unproved


def test_a_stop_names_the_dear_remedies_that_nothing_has_proved_and_that_are_still_likely() -> None:
    """From one in twenty of the jobs that stop; not one that is done or proved, nor one that wanted no proof."""
    thirds = (0.3, 0.3, 0.3, 0.1)
    assert stopped(thirds) == ("motor", "lamp")
    assert stopped(thirds, tried=0b010) == stopped(thirds, proved=0b010) == ("lamp",)
    assert stopped(thirds, tried=0b100) == stopped(thirds, proved=0b101) == ("motor",)
    assert stopped(thirds, tried=0b010, proved=0b100) == ()
    assert stopped((0.91, 0.05, 0.04, 0.0)) == ("motor",)
    assert stopped((0.5, 0.04, 0.02, 0.2)) == ("motor",)
