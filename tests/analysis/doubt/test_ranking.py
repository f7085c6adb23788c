"""Shares, their order and the sentence where nothing fits, reckoned by hand."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, plain
from generator.analysis.doubt.ranking import TWO_FAULTS, USED_UP, ranking
from generator.analysis.doubt.standing import Standing, not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful


def _look(trust: float, *, unlisted: float = 0.0) -> Table:
    """Two causes and a check with an outcome that neither shows, nor a sound machine."""
    a, b = (Hypothesis(n, (n,), 1, Remedy(f"mend-{n}", minutes=2)) for n in "ab")
    look = Check("look", 1, (), ("a", "b", "neither", "sound"), {"a": 0, "b": 1})
    return Table(plain(Case((a, b), (look,), Machine(), 2), trust, unlisted=unlisted))


def test_the_largest_share_comes_first_and_ties_go_by_id() -> None:
    table = _look(0.95)
    assert list(ranking(table, start(table)).shares) == ["a", "b", SOMETHING_ELSE]
    assert list(ranking(table, seen(table, start(table), 0, 1)).shares)[0] == "b"
    later = Table(plain(Case(table.doubt.case.hypotheses[::-1], (), Machine(), 2), unlisted=1 / 3))
    assert list(ranking(later, start(later)).shares) == ["a", "b", SOMETHING_ELSE]


def test_an_answer_that_no_cause_shows_is_named() -> None:
    table = _look(0.95)
    found = ranking(table, seen(table, start(table), 0, 2), [(0, 2)])
    assert "'look'" in found.said
    assert (found.shares["a"], found.shares["b"]) == pytest.approx((0.5, 0.5))


def test_what_a_sound_machine_shows_contradicts_nothing_and_raises_what_no_book_lists() -> None:
    table = _look(0.95, unlisted=0.03)
    found = ranking(table, seen(table, start(table), 0, 3), [(0, 3)])
    assert found.said == ""
    assert next(iter(found.shares)) == SOMETHING_ELSE


def test_what_was_put_right_in_vain_fits_no_more() -> None:
    table = _look(0.95)
    now = not_cured(table, seen(table, start(table), 0, 0), 0)
    assert ranking(table, now, [(0, 0)]).said == USED_UP


def test_answers_that_only_different_causes_show_are_said_to_be_two_faults() -> None:
    a, b = (Hypothesis(n, (n,), 1, Remedy(f"mend-{n}", minutes=2)) for n in "ab")
    looks = tuple(Check(n, 1, (), ("a", "b", "sound"), {"a": 0, "b": 1}) for n in ("one", "two"))
    table = Table(plain(Case((a, b), looks, Machine(), 2)))
    now = seen(table, seen(table, start(table), 0, 0), 1, 1)
    assert ranking(table, now, [(0, 0), (1, 1)]).said == TWO_FAULTS


def test_certain_answers_that_leave_nothing_possible_leave_the_shares_as_they_were() -> None:
    table = _look(1.0)
    dark: Standing = seen(table, start(table), 0, 2)
    assert dark.share == 0
    assert ranking(table, dark, [(0, 2)]).shares == {"a": 0.5, "b": 0.5, SOMETHING_ELSE: 0.0}


def test_a_sentence_stands_only_where_the_answers_leave_nothing() -> None:
    """Nothing was right at both looks, and something is wrong that is not listed: no contradiction. Both wrong: two faults."""
    table = doubtful()
    now = start(table)
    assert ranking(table, now, [(0, 0)]).said == ""
    assert ranking(table, not_cured(table, now, 1), [(0, 0)]).said == USED_UP
    assert ranking(table, not_cured(table, now, 0), [(0, 0)]).said == ""
    assert ranking(table, now, [(0, 1), (1, 1)]).said == ""
    assert ranking(table, now, [(0, 0), (1, 0)]).said == TWO_FAULTS
    odd = Check("listen", 1, (), ("knocks", "hums", "silent"), {"motor-worn": 1, "belt-loose": 2})
    assert "No cause in this tree shows what was seen at 'listen'." in ranking(doubtful(odd), now, [(2, 0)]).said
    nothing = Standing((0.0, 0.0, 0.0))
    assert ranking(table, nothing).shares == pytest.approx({"belt-loose": 0.54, "motor-worn": 0.36, SOMETHING_ELSE: 0.1})
