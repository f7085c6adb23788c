"""What is reckoned by a shortcut is, to the last digit, what its formula says: all along jobs of made-up cases."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

import pytest

from generator.analysis.doubt.grow import Grower
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.order import order, record_order_minutes
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.rows import bits, numbers
from generator.analysis.doubt.standing import Standing, allowed_checks, allowed_remedies, must_check, start
from generator.analysis.doubt.table import Table
from tests.analysis.doubt import doubt_plain
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt

CASES = [*map(small_doubt, range(60)), *(bench_doubt(n, 5 + n % 9, 4 + n % 8) for n in range(20))]


def met(block: int) -> Iterator[tuple[Table, Standing]]:
    """A tenth of the cases, five jobs each."""
    for number, doubt in enumerate(CASES[block::10]):
        table = Table(doubt)
        for job in range(5):
            for now in doubt_plain.places(table, Random(100 * number + job)):
                yield table, now


@pytest.mark.parametrize("block", range(10))
def test_what_may_come_next_is_what_the_rules_say_one_by_one(block: int) -> None:
    for table, now in met(block):
        assert allowed_checks(table, now) == doubt_plain.checks(table, now)
        assert allowed_remedies(table, now) == doubt_plain.remedies(table, now)


@pytest.mark.parametrize("block", range(10))
def test_the_next_step_is_the_first_of_all_steps_by_the_formula(block: int) -> None:
    for table, now in met(block):
        if not must_check(table, now):
            expected = doubt_plain.steps(table, now)
            assert [(s.move, s.minutes, s.score) for s in next_steps(table, now)] == expected
            assert next_move(table, now) == expected[0][0]


@pytest.mark.parametrize("block", range(10))
def test_the_outlook_is_the_sum_over_all_remedies_by_the_formula(block: int) -> None:
    for table, now in met(block):
        assert outlook(table, now) == doubt_plain.outlook(table, now)


def test_a_table_that_has_reckoned_much_already_gives_the_same_orders() -> None:
    for doubt in CASES[50:]:
        table = Table(doubt)
        assert order(table) == order(doubt) == order(table)
        assert record_order_minutes(table) == record_order_minutes(doubt)


def test_sets_are_integers_with_a_bit_for_each() -> None:
    assert bits(n in {0, 3, 4} for n in range(6)) == 0b11001
    assert (numbers(0b11001), numbers(0)) == ([0, 3, 4], [])


def test_without_a_tie_the_last_moves_are_the_first_ones() -> None:
    """And with one they may be others: so that the order is grown a second time only where it must be."""
    met = set()
    for doubt in CASES:
        table = Table(doubt)
        rollout = Rollout(table)
        first = Grower(table, rollout.move, 0.003, outlook).policy(start(table))
        tied = rollout.tied
        other = Grower(table, rollout.last_move, 0.003, outlook).policy(start(table)) != first
        assert tied or not other
        met.add((tied, other))
    assert met == {(False, False), (True, False), (True, True)}


def test_the_cases_hold_joint_remedies_unproved_ones_faults_and_what_must_wait() -> None:
    """So that every shortcut is met."""
    tables = [Table(doubt) for doubt in CASES]
    assert any(len(causes) > 1 for table in tables for causes in table.causes)
    assert any(table.unproved & ~table.remedy_bits(table.doubt.no_sign) for table in tables)
    assert any(table.waiting for table in tables)
    assert any(now.faults for block in range(10) for _, now in met(block))
    assert any(must_check(table, start(table)) for table in tables)
