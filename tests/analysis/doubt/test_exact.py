"""The search of all policies: against brute force, and by hand what it expands, what it prefers and where it gives up."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Doubt, plain
from generator.analysis.doubt.exact import Search
from generator.analysis.doubt.grow import STOP, Grower
from generator.analysis.doubt.standing import Standing, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import expected_minutes
from tests.analysis.doubt.doubt_brute_force import least_minutes
from tests.analysis.doubt.doubt_by_hand import doubtful
from tests.analysis.doubt.doubt_cases import small_doubt


@pytest.mark.parametrize("block", range(10))
def test_the_least_minutes_are_those_of_brute_force_and_its_moves_take_as_many(block: int) -> None:
    for number in range(block, 80, 10):
        doubt = small_doubt(number)
        table, least = Table(doubt), least_minutes(doubt)
        search = Search(table, 10_000)
        assert search.run(start(table))
        assert search.least(start(table))[0] == pytest.approx(least, abs=1e-8), number
        assert expected_minutes(Grower(table, search.move).policy(start(table))) == pytest.approx(least, abs=1e-8), number


def hooked(*causes: tuple[str, float, float], check_minutes: float, unlisted: float, stop: float, come_back: float) -> Doubt:
    """Causes with their weights and the minutes of their remedies, and a check that tells them all from a sound machine.

    Readings never deceive and remedies always cure.
    """
    found = tuple(Hypothesis(i, (i,), weight, Remedy(f"mend-{i}", minutes=minutes)) for i, weight, minutes in causes)
    look = Check("look", check_minutes, (), ("wrong", "right"), {i: 0 for i, _, _ in causes})
    case = Case(found, (look,), Machine(), 0)
    return plain(case, 1.0, unlisted=unlisted, cures=1.0, stop_minutes=stop, come_back_minutes=come_back)


def test_a_standing_from_which_nothing_can_save_is_expanded_alone() -> None:
    """To stop takes nothing here. One standing needs a budget of one."""
    table = Table(hooked(("a", 1, 8), check_minutes=2, unlisted=0.5, stop=0, come_back=0))
    search = Search(table, 1)
    assert (search.run(start(table)), search.least(start(table)), search.expanded) == (True, (0.0, STOP), 1)
    refused = Search(table, 0)
    assert (refused.run(start(table)), refused.expanded) == (False, 0)


def test_the_move_of_the_lowest_bound_is_followed_first() -> None:
    """One cause: its remedy takes 8, to look first 2 + 8. So the look is never followed, and the start alone is expanded."""
    table = Table(hooked(("a", 1, 8), check_minutes=2, unlisted=0.0, stop=50, come_back=100))
    search = Search(table, 100)
    assert (search.least(start(table)), search.expanded) == ((8.0, ("remedy", 0)), 1)


def test_the_budget_is_what_it_takes() -> None:
    table = doubtful()
    free = Search(table, 10_000)
    assert free.run(start(table)) and free.expanded > 3
    assert Search(table, free.expanded).run(start(table))
    short = Search(table, free.expanded - 1)
    assert not short.run(start(table)) and short.expanded == free.expanded - 1


def test_of_equal_moves_the_first_stands() -> None:
    """Two causes as likely, two remedies as long: 8 + 4 either way."""
    table = Table(hooked(("a", 1, 8), ("b", 1, 8), check_minutes=50, unlisted=0.0, stop=50, come_back=100))
    assert Search(table, 100).least(start(table)) == (12.0, ("remedy", 0))


def test_what_can_only_be_as_good_as_the_best_found_is_not_followed() -> None:
    """To stop takes 8 + 0.5 x 8 = 12. The check: 2, then wrong in half the jobs, 8 of them and 8 of a quarter, 6; right 4; also 12.

    The bound of the check is 2 + 4 + 4, so it is followed, and where wrong was seen it has come to 12: right is not followed.
    Expanded: the start, after wrong, and after wrong with one remedy in vain.
    """
    table = Table(hooked(("a", 1, 8), ("b", 1, 8), check_minutes=2, unlisted=0.5, stop=8, come_back=8))
    search = Search(table, 100)
    assert (search.least(start(table)), search.expanded) == ((12.0, STOP), 3)


def test_what_is_nothing_but_rounding_is_not_expanded() -> None:
    """The remedy cures all but the unlisted cause: 1e-15 of the jobs are none, 2e-15 of them are one more standing."""
    table = Table(hooked(("a", 1, 7), check_minutes=50, unlisted=0.5, stop=64, come_back=64))
    for unlisted, expanded in ((1e-15, 1), (2e-15, 2)):
        search = Search(table, 100)
        assert search.least(Standing((0.5, unlisted))) == (pytest.approx(3.5), ("remedy", 0))
        assert search.expanded == expanded
