"""What is still to come, on a case reckoned by hand with its formula."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.standing import passed_over, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful


def test_what_is_still_to_come_is_added_up_over_the_remedies_that_are_worth_their_minutes() -> None:
    """Motor with cover and proof: 39 + 4 + 4.5. Belt 7. While one waits, 0.15 of the other's minutes."""
    table = doubtful()
    belt = 7 * (0.54 + 0.15 * 0.46)
    rest, listed = 1 - 0.9 * 0.54, 0.9 - 0.9 * 0.54
    assert 47.5 * (0.36 + 0.15 * (rest - 0.36)) < 54 * 0.36
    motor = 47.5 * (0.36 + 0.15 * (rest - 0.36))
    assert outlook(table, start(table)) == pytest.approx(belt + motor + (rest - 0.324) * 15 + (listed - 0.324) * 45)


def test_a_remedy_that_takes_more_than_it_saves_or_can_no_longer_be_proved_is_left_out_of_it() -> None:
    rest, listed = 1 - 0.9 * 0.54, 0.9 - 0.9 * 0.54
    alone = 7 * (0.54 + 0.15 * 0.46)
    assert outlook(doubtful(come_back=20), start(doubtful(come_back=20))) == pytest.approx(alone + rest * 15 + listed * 20)
    table = doubtful()
    unproved = passed_over(table, start(table), "look-motor")
    assert outlook(table, unproved) == pytest.approx(alone + rest * 15 + listed * 45)
    tried = passed_over(table, unproved, "set:belt")
    assert outlook(table, tried) == pytest.approx(15 + 0.9 * 45)


@pytest.mark.parametrize(("look", "cause", "minutes"), [("look-belt", 1, 7), ("look-motor", 0, 39)])
def test_on_a_fault_only_what_mends_it_is_counted_on(look: str, cause: int, minutes: float) -> None:
    table = doubtful(before=(look,))
    dark = seen(table, start(table), ("look-belt", "look-motor").index(look), 0)
    chance = dark.weights[cause]
    rest, listed = dark.share - 0.9 * chance, dark.weights[0] + dark.weights[1] - 0.9 * chance
    assert outlook(table, dark) == pytest.approx(minutes * (chance + 0.15 * (dark.share - chance)) + rest * 15 + listed * 45)


def hooked() -> Table:
    """Lint in 1 of 5, a hook worn in 4 of 5 whose remedy wants a proof: a look of 1 minute, or a stripped one of 4."""
    lint = Hypothesis("lint", ("lint",), 1, Remedy("clean", minutes=3))
    hook = Hypothesis("hook-worn", ("hook-worn",), 4, Remedy("renew", minutes=10))
    looks = [Check(f"look-{n}", n, (), ("worn", "good"), {"lint": 1, "hook-worn": 0}) for n in (4, 1)]
    case = Case((lint, hook), tuple(looks), Machine(), 2)
    return Table(
        plain(case, 1.0, unlisted=0.0, cures=1.0, stop_minutes=20, come_back_minutes=80, dear=frozenset({"renew"}))
    )


def test_the_remedy_of_the_most_chance_for_its_minutes_comes_first_with_its_cheapest_proof() -> None:
    """Hook 12 + 1 over 0.8 is 16.25, lint 5 over 0.2 is 25; by minutes alone lint would come first and wait less.

    Hook: 13 (0.8 + 0.15 x 0.2) = 10.79. Then lint, with nothing else waiting: 5 x 0.2. Nothing is left to stop for.
    """
    table = hooked()
    assert outlook(table, start(table)) == pytest.approx(10.79 + 1)


def test_what_is_proved_wants_no_other_proof_and_a_proof_that_is_gone_gives_none() -> None:
    """Seen worn in 0.8 of the jobs, the hook is all that it can be: 12 x 0.8. Without the look of a minute, the other of 4: 16 x 0.83 + 1."""
    table = hooked()
    assert outlook(table, seen(table, start(table), 1, 0)) == pytest.approx(12 * 0.8)
    assert outlook(table, passed_over(table, start(table), "look-1")) == pytest.approx(16 * 0.83 + 1)


def test_a_remedy_that_takes_as_much_as_it_saves_is_left_out() -> None:
    """Half and a quarter of the jobs, a quarter unlisted; a whole chance saves 11.5: to stop is 3.5, to come back 8.

    The first, 10 minutes: 10 (0.5 + 0.15 x 0.5) = 5.75, as much as half of 11.5; the second, 6: 6 (0.25 + 0.15 x 0.75) = 2.175,
    less than its 2.875. Counted on, the first would leave only half the jobs waiting for the second.
    """
    causes = tuple(Hypothesis(i, (i,), w, Remedy(i, minutes=m)) for i, w, m in (("first", 2, 10), ("second", 1, 6)))
    doubt = plain(Case(causes, (), Machine(), 0), unlisted=0.25, cures=1.0, stop_minutes=3.5, come_back_minutes=8)
    table = Table(doubt)
    assert table.prior == (0.5, 0.25, 0.25)
    assert outlook(table, start(table)) == pytest.approx(2.175 + 3.5 * 0.75 + 8 * 0.5)
