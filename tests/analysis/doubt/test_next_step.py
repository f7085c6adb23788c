"""The next step, on a case reckoned by hand with its formula."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.grow import STOP
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.standing import Standing, not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful


def scores(table: Table, now: Standing) -> list[tuple[str, float, float]]:
    return [(step.id, step.minutes, pytest.approx(step.score)) for step in next_steps(table, now)]


def test_steps_are_scored_by_their_minutes_over_their_chance() -> None:
    table = doubtful()
    now = start(table)
    assert scores(table, now) == [("look-belt", 1, 1 / 0.54), ("look-motor", 4.5, 4.5 / 0.36), ("set:belt", 7, 7 / 0.54), ("", 15, 54)]
    assert next_move(table, now).number == 0
    burnt = seen(table, now, 1, 0)
    whole = 0.36 * 0.95 + 0.54 * 0.05 + 0.1 * 0.05
    assert scores(table, burnt) == [
        ("look-belt", 1, whole / (0.54 * 0.05)),
        ("renew:motor", 39, 39 * whole / (0.36 * 0.95)),
        ("", 15, 54),
        ("set:belt", 7, 7 * whole / (0.54 * 0.05)),
    ]


def test_where_nothing_is_possible_there_is_no_step() -> None:
    assert next_steps(doubtful(), Standing((0.0, 0.0, 0.0))) == []


def test_a_check_that_tells_only_what_was_mended_is_no_step_any_more() -> None:
    table = doubtful()
    left = not_cured(table, start(table), 1)
    assert [step.id for step in next_steps(table, left)] == ["look-motor", ""]
    assert next_steps(table, left)[0].score == pytest.approx(4.5 * (1 - 0.54 * 0.9) / 0.36)


def remedies(**told: tuple[float, float]) -> Table:
    """Remedies alone, by name their minutes and the share that each cures; a proving sew of nothing, and a stop worth 200."""
    found = tuple(Hypothesis(f"h-{i}", (f"h-{i}",), share, Remedy(i, minutes=minutes)) for i, (minutes, share) in told.items())
    return Table(plain(Case(found, (), Machine(), 0), unlisted=0.0, cures=1.0, stop_minutes=80, come_back_minutes=120))


def test_scores_that_differ_by_less_than_a_millionth_are_a_tie_that_the_minutes_break() -> None:
    """5.2499999 / 0.5 is 10.4999998 and 2.62500005 / 0.25 is 10.5000002: to a millionth both 10.5. A whole millionth is none."""
    table = remedies(a=(5.2499999, 0.5), z=(2.62500005, 0.25), far=(40, 0.25))
    assert [step.id for step in next_steps(table, start(table))] == ["z", "a", "far", ""]
    assert next_move(table, start(table)).number == 1
    apart = remedies(a=(5.2499995, 0.5), z=(2.62500005, 0.25), far=(40, 0.25))
    assert [step.id for step in next_steps(apart, start(apart))] == ["a", "z", "far", ""]
    assert next_move(apart, start(apart)).number == 0


def test_minutes_that_differ_by_less_than_a_millionth_are_a_tie_that_the_names_break() -> None:
    table = remedies(z=(4.9999998, 0.5), a=(5.0000001, 0.5))
    assert [step.id for step in next_steps(table, start(table))] == ["a", "z", ""]
    assert next_move(table, start(table)).number == 1


def test_of_equal_steps_a_remedy_comes_before_a_check_and_both_before_a_stop() -> None:
    """One cause and one check that shows it, 80 minutes each, and a stop of 80 that is worth 80."""
    cause = Hypothesis("dull", ("dull",), 1, Remedy("z-renew", minutes=80))
    look = Check("a-look", 80, (), ("dull", "sharp"), {"dull": 0})
    table = Table(plain(Case((cause,), (look,), Machine(), 0), unlisted=0.0, cures=1.0, stop_minutes=80, come_back_minutes=0))
    assert [(s.move.kind, s.minutes, s.score) for s in next_steps(table, start(table))] == [
        ("remedy", 80, 80), ("check", 80, 80), ("stop", 80, 80),
    ]  # fmt: skip
    assert next_move(table, start(table)) == ("remedy", 0)


def test_a_check_that_must_come_first_is_the_only_step_also_where_it_tells_nothing() -> None:
    """The look at the motor is dearer for its chance than all else; done for a mended motor, it has no chance at all."""
    table = doubtful(before=("look-motor",))
    assert scores(table, start(table)) == [("look-motor", 4.5, 4.5 / 0.36)]
    assert next_move(table, start(table)) == ("check", 1)
    mended = not_cured(table, start(table), 0)
    assert [(s.id, s.score) for s in next_steps(table, mended)] == [("look-motor", float("inf"))]
    assert next_move(table, mended) == ("check", 1)
    known = seen(table, start(table), 0, 0)
    assert known.share == pytest.approx(0.536)  # the belt's look shows it loose: 0.54 x 0.95, and 0.46 x 0.05
    assert scores(table, known) == [("look-motor", 4.5, 4.5 * 0.536 / (0.36 * 0.05))]


def test_to_stop_is_best_where_a_chance_is_worth_less_than_the_thinking_takes() -> None:
    """A cure of two spares 10 minutes of thinking: a whole chance is worth 5, and the one remedy takes 100."""
    cause = Hypothesis("dull", ("dull",), 1, Remedy("renew", minutes=100))
    table = Table(plain(Case((cause,), (), Machine(), 0), unlisted=0.0, cures=0.5, stop_minutes=10, come_back_minutes=0))
    assert scores(table, start(table)) == [("", 10, 5), ("renew", 100, 100)]
    assert next_move(table, start(table)) == STOP
