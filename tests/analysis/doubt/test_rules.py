"""The plain ways of working, on cases reckoned by hand."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.grow import STOP
from generator.analysis.doubt.rules import last_resort, record_order
from generator.analysis.doubt.standing import not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful


def remedies(minutes_a: float = 10.0, dear: tuple[str, ...] = ()) -> Table:
    """a cures 2 of 8 in 10 minutes, b 3 of 8 in 12, c 3 of 8 in 15; a whole chance to cure is worth 0.5 (20 + 100) = 60."""
    told = (("a", 2, minutes_a), ("b", 3, 12.0), ("c", 3, 15.0))
    causes = tuple(Hypothesis(f"h-{i}", (f"h-{i}",), share, Remedy(i, minutes=minutes)) for i, share, minutes in told)
    return Table(plain(Case(causes, (), Machine(), 0), unlisted=0.0, cures=0.5, stop_minutes=20, come_back_minutes=100, dear=frozenset(dear)))


def test_what_a_whole_chance_to_cure_is_worth() -> None:
    """No stop and no coming back, in the jobs that it cures: 0.9 (15 + 45), and 0.5 (20 + 100)."""
    assert (doubtful().saved, remedies().saved) == (pytest.approx(54), 60)


def test_the_checks_come_as_they_stand_in_the_record_until_a_remedy_is_likelier_than_not() -> None:
    """Belt 0.54: at once. Its remedy done in vain, 0.054 of 0.514; the motor, 0.36 of that, is dear and unproved: the looks in turn."""
    table = doubtful()
    now = start(table)
    assert record_order(table, now) == ("remedy", 1)
    now = not_cured(table, now, 1)
    assert record_order(table, now) == ("check", 0)
    now = seen(table, now, 0, 1)
    assert record_order(table, now) == ("check", 1)
    assert record_order(table, seen(table, now, 1, 1)) == STOP  # brushes good: nothing is left that may be done
    assert record_order(table, seen(table, now, 1, 0)) == ("remedy", 0)


def test_the_likelihood_is_of_the_jobs_that_came_so_far() -> None:
    """Brushes good and belt right: the belt has 0.02565 of 0.133, a fifth. Loose: 0.513 of 0.536. So few of all jobs, and yet likely."""
    table = doubtful()
    good = seen(table, seen(table, start(table), 1, 1), 0, 1)
    assert record_order(table, good) == ("remedy", 1)  # by the last resort: no check is left, and 7 min over a fifth is below 54
    few = start(table)._replace(weights=(0.004, 0.006, 0.0))
    assert record_order(table, few) == ("remedy", 1)
    assert record_order(table, few._replace(weights=(0.006, 0.004, 0.0))) == ("check", 0)


def test_a_remedy_as_likely_as_not_waits_for_a_check() -> None:
    table = doubtful()
    assert record_order(table, start(table)._replace(weights=(0.25, 0.5, 0.25))) == ("check", 0)
    assert record_order(table, start(table)._replace(weights=(0.25, 0.5, 0.24))) == ("remedy", 1)


def test_the_last_resort_is_the_remedy_of_the_least_minutes_for_a_chance() -> None:
    """10 over 2/8 is 40, 12 over 3/8 is 32, 15 over 3/8 is 40: b. It is the same for fewer jobs, and without b it is a, by its place."""
    table = remedies()
    assert last_resort(table, start(table)) == record_order(table, start(table)) == ("remedy", 1)
    few = start(table)._replace(weights=(0.125, 0.1875, 0.1875, 0.0))
    assert last_resort(table, few) == ("remedy", 1)
    assert last_resort(table, few._replace(tried=0b010)) == ("remedy", 0)


def test_what_takes_as_much_as_it_saves_is_not_worth_it() -> None:
    """A quarter of 60 is 15."""
    for minutes, move in ((14.5, ("remedy", 0)), (15.0, STOP), (15.5, STOP)):
        table = remedies(minutes, dear=("b", "c"))
        assert last_resort(table, start(table)) == move


def test_a_remedy_without_a_chance_is_none() -> None:
    table = remedies()
    assert last_resort(table, start(table)._replace(weights=(0.5, 0.0, 0.0, 0.5))) == ("remedy", 0)
    assert last_resort(table, start(table)._replace(weights=(0.0, 0.0, 0.0, 1.0))) == STOP
