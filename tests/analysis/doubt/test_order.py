"""The order under doubt: what is searched and what is ruled, by hand and by its parts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Doubt, plain
from generator.analysis.doubt.grow import Grower
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.order import order, price_of_caution, record_order_minutes
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.relaxed import certain_bound
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.standing import start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import BeyondNode, RemedyNode, StopNode, expected_minutes, nodes, share_and_minutes
from tests.analysis.doubt.doubt_by_hand import tension
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt

TENSION = tension().doubt


def test_what_is_searched_is_exact_and_its_own_bound() -> None:
    """The spring at once is 1.2 + 10; to look first, as the next step does, is 1 + 0.6 + 10."""
    found = order(TENSION)
    assert (found.exact, found.expected_minutes, found.lower_bound) == (True, pytest.approx(11.2), pytest.approx(11.2))
    assert found.next_step_minutes == pytest.approx(11.6)
    assert found.policy == RemedyNode("set-spring", (), 1.2, 0.5, RemedyNode("set-hook", (), 20, 0.5, None))


def test_where_the_search_is_given_up_the_better_rule_stands_with_a_bound() -> None:
    """The roll-out's 11.2; each cause known, 0.6 + 10 at the least."""
    found = order(TENSION, budget=0)
    assert (found.exact, found.expected_minutes, found.next_step_minutes) == (False, pytest.approx(11.2), pytest.approx(11.6))
    assert found.policy.remedy == "set-spring"
    assert 10.6 - 1e-9 <= found.lower_bound <= 11.2


def looks(count: int) -> Doubt:
    """One cause and so many looks at it, none of which is worth its minutes."""
    cause = Hypothesis("dull", ("dull",), 1, Remedy("renew", minutes=3))
    checks = tuple(Check(f"look-{n}", 50, (), ("dull", "sharp"), {"dull": 0}) for n in range(count))
    return plain(Case((cause,), checks, Machine(), 2))


def test_up_to_nine_checks_and_remedies_together_are_searched() -> None:
    assert order(looks(8)).exact
    assert not order(looks(9)).exact


@pytest.mark.parametrize("number", range(0, 60, 2))
def test_what_is_known_of_a_small_case_that_is_not_searched(number: int) -> None:
    """The minutes are those of whole policies, the bound is the higher of both and never above them."""
    doubt = small_doubt(number)
    table, found = Table(doubt), order(doubt, budget=0)
    ruled = expected_minutes(Grower(table, next_move).policy(start(table)))
    rolled = min(expected_minutes(Grower(table, rule).policy(start(table))) for rule in (Rollout(table).move, Rollout(table).last_move))
    bound = max(KnownCause(table).bound(start(table)), certain_bound(doubt))
    assert not found.exact
    assert found.next_step_minutes == order(doubt).next_step_minutes == pytest.approx(ruled)
    assert found.expected_minutes == expected_minutes(found.policy) == pytest.approx(min(ruled, rolled))
    assert found.lower_bound == pytest.approx(min(bound, found.expected_minutes))


def test_either_bound_is_the_higher_one_somewhere() -> None:
    """So that the test above sees both."""
    tables = [Table(small_doubt(number)) for number in range(0, 60, 2)]
    higher = {KnownCause(table).bound(start(table)) > certain_bound(table.doubt) for table in tables}
    assert higher == {True, False}


@pytest.mark.parametrize("number", range(3))
def test_of_a_large_case_three_jobs_in_a_thousand_are_followed(number: int) -> None:
    doubt = bench_doubt(number, 12, 10)
    table, found = Table(doubt), order(doubt)
    ruled = expected_minutes(Grower(table, next_move, 0.003, outlook).policy(start(table)))
    rules = Rollout(table).move, Rollout(table).last_move
    rolled = min(expected_minutes(Grower(table, rule, 0.003, outlook).policy(start(table))) for rule in rules)
    assert found.next_step_minutes == pytest.approx(ruled)
    assert found.expected_minutes == pytest.approx(min(ruled, rolled))
    assert 0 < found.lower_bound < found.expected_minutes


@pytest.mark.parametrize("doubt", [bench_doubt(0, 12, 10), bench_doubt(1, 5, 4)])
def test_two_jobs_in_a_hundred_are_written_out(doubt: Doubt) -> None:
    every = list(nodes(order(doubt).policy))
    shares = [share_and_minutes(node)[0] for node in every if not isinstance(node, StopNode | BeyondNode)]
    beyond = [node.share for node in every if isinstance(node, BeyondNode)]
    assert len(shares) > 3
    assert min(shares) >= 0.02 > max(beyond)


def test_the_price_of_caution_is_the_look_that_would_not_be_worth_it() -> None:
    """A motor of 40 minutes, a look at it of 50: careful it takes both, careless the motor alone."""
    motor = Hypothesis("worn", ("worn",), 1, Remedy("renew:motor", minutes=40))
    look = Check("look", 50, (), ("worn", "good"), {"worn": 0})
    careful = plain(
        Case((motor,), (look,), Machine(), 0), 1.0, unlisted=0.0, cures=1.0, dear=frozenset({"renew:motor"})
    )
    assert price_of_caution(careful, order(careful)) == pytest.approx(50)
    excused = replace(careful, no_sign=frozenset({"renew:motor"}))
    assert price_of_caution(excused, order(excused)) == 0
    assert price_of_caution(TENSION, order(TENSION)) == 0


def test_the_order_of_the_records_looks_where_nothing_is_likelier_than_not() -> None:
    """1 for the look, then the spring in half the jobs and the hook in the others."""
    assert record_order_minutes(TENSION) == pytest.approx(11.6)
