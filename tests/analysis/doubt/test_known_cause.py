"""The bound of known causes, on a case reckoned by hand."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.standing import Standing, not_cured, passed_over, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, MachinePart, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful


def test_the_bound_takes_for_each_cause_what_ends_it_soonest() -> None:
    """Motor 39 + 4 + proof 0.5, then in one of ten jobs a stop of 60. Belt: its remedy, or a trial that may end it."""
    table = doubtful()
    assert KnownCause(table).bound(start(table)) == pytest.approx(0.36 * (43.5 + 0.1 * 60) + 0.54 * (7 + 0.1 * 60) + 0.1 * 15)
    trial = Check("tighten-belt", 1.5, ("cover",), ("cured", "not"), {"motor-worn": 1, "belt-loose": 0}, frozenset({0}))
    tried = doubtful(trial)
    best = min(5.5 + 0.05 * 7, 7 + 0.1 * 1.5)
    assert KnownCause(tried).bound(start(tried)) == pytest.approx(0.36 * 49.5 + 0.54 * best + 0.1 * 15)
    done = not_cured(tried, start(tried), 1)
    after = KnownCause(tried).bound(done)  # the trial would only do the same again
    assert after == pytest.approx(0.36 * 49.5 + 0.054 * 60 + 0.1 * 15)
    gone = passed_over(tried, passed_over(tried, start(tried), "tighten-belt"), "look-motor")
    assert KnownCause(tried).bound(gone) == pytest.approx(0.36 * 60 + 0.54 * 13 + 0.1 * 15)


def turned() -> Table:
    """Lint, and a hook out of place behind a cover of 4 minutes: its remedy wants a proof (a look of 1, or one of 4),
    and a trial of 2 minutes behind the same cover may end it. To stop with a listed cause is 100."""
    lint = Hypothesis("lint", ("lint",), 1, Remedy("clean", minutes=3))
    hook = Hypothesis("hook-out", ("hook-out",), 3, Remedy("set", reach=("cover",), minutes=10))
    looks = [Check(f"look-{n}", n, (), ("out", "right"), {"lint": 1, "hook-out": 0}) for n in (4, 1)]
    trial = Check("turn", 2, ("cover",), ("cured", "still there"), {"lint": 1, "hook-out": 0}, frozenset({0}))
    parts = {p: MachinePart(p, (), 1, 3) for p in ("cover", "plate")}
    case = Case((lint, hook), (*looks, trial), Machine(parts), 2)
    return Table(plain(case, unlisted=0.2, cures=0.9, stop_minutes=20, come_back_minutes=80, dear=frozenset({"set"})))


def bound(table: Table, now: Standing, *, lint: float, hook: float) -> bool:
    """Whether the bound is that of these minutes for each cause, and 20 for the unlisted one."""
    return KnownCause(table).bound(now) == pytest.approx(now.weights[0] * lint + now.weights[1] * hook + now.weights[2] * 20)


def test_after_a_trial_that_failed_the_remedy_follows_with_its_proof_and_without_the_cover() -> None:
    """Lint: 5 + 0.1 x 100. Hook by the trial: 6, and in 5 of 100 the remedy of 12 with a proof of 1; the remedy first is 17.2."""
    table = turned()
    assert bound(table, start(table), lint=15, hook=6 + 0.05 * 13)
    without_cheap = passed_over(table, start(table), "look-1")
    assert bound(table, without_cheap, lint=15, hook=6 + 0.05 * 16)
    assert bound(table, seen(table, start(table), 1, 0), lint=15, hook=6 + 0.05 * 12)


def test_what_is_open_is_not_opened_again() -> None:
    """With the cover off the trial is its own 2 minutes."""
    table = turned()
    assert bound(table, start(table)._replace(open_parts=table.parts(["cover"])), lint=15, hook=2 + 0.05 * 13)


def test_a_remedy_that_nothing_can_prove_any_more_is_none() -> None:
    """Then the trial alone is left, and a stop of 100 in 5 of 100 after it."""
    table = turned()
    now = passed_over(table, passed_over(table, start(table), "look-1"), "look-4")
    assert bound(table, now, lint=15, hook=6 + 0.05 * 100)
