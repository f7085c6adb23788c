"""What is asked of a case in numbers: minutes from where a job stands, and whom a step tells or cures, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_by_hand import doubtful
from tests.analysis.doubt.doubt_rows import BLOW, DOUBT, IDS, LISTEN, LOOK, TABLE, TURN

WEIGHTS = (1, 2, 3, 4, 5)
"Motor, hook late, hook early, lint, and what is not listed."


def test_what_a_check_tells_of_a_remedy_that_is_done_it_tells_no_more() -> None:
    assert TABLE.telling(0) == [[0, 1, 2, 3], [1, 2, 3], [3], [1, 2]]
    assert TABLE.telling(0b010) == [[0, 3], [3], [3], []]
    assert TABLE.telling(0b101) == [[1, 2], [1, 2], [], [1, 2]]
    assert TABLE.telling(0b010) == [[0, 3], [3], [3], []]


def test_what_is_open_already_is_not_opened_again() -> None:
    """Bed and arm are 10 minutes, the bed alone 7, the lid 1."""
    assert [TABLE.opening(parts) for parts in (0, 0b001, 0b010, 0b011, 0b111)] == [0, 3, 7, 10, 11]
    assert TABLE.remedy_costs(0) == [42, 22, 8]
    assert TABLE.remedy_costs(0b001) == [39, 22, 8]
    assert TABLE.remedy_costs(0b110) == [35, 22, 7]
    assert TABLE.check_costs(0) == [1, 12, 5, 4]
    assert TABLE.check_costs(0b001) == [1, 9, 5, 4]
    assert TABLE.check_costs(0b111) == [1, 2, 4, 3]
    assert TABLE.check_costs(0b001) == [1, 9, 5, 4]


def test_steps_come_by_their_minutes_each_with_the_weights_of_those_that_it_tells_or_cures() -> None:
    """Listen, look, blow, clean the hook, turn, set the timing, renew the motor."""
    steps = TABLE.steps(0, 0)
    assert [s.bit for s in steps] == [0b1, 0b1000, 0b100, 0b1000000, 0b10, 0b100000, 0b10000]
    assert [s.minutes for s in steps] == [1, 4, 5, 8, 12, 22, 42]
    assert [s.told(WEIGHTS) for s in steps] == [(1, 2, 3, 4), (2, 3), (4,), (4,), (2, 3, 4), (2, 3), (1,)]


def test_steps_follow_what_is_open_and_what_was_tried() -> None:
    """The arm is off and the timing set: to turn and the motor take 3 minutes less, and nothing tells of the timing any more."""
    steps = TABLE.steps(0b001, 0b010)
    assert [(s.bit, s.minutes) for s in steps] == [(1, 1), (8, 4), (4, 5), (64, 8), (2, 9), (32, 22), (16, 39)]
    assert [s.told(WEIGHTS) for s in steps] == [(1, 4), (), (4,), (4,), (4,), (2, 3), (1,)]
    assert TABLE.steps(0, 0) != steps == TABLE.steps(0b001, 0b010)


def test_trials_of_remedies_that_are_all_done_only_repeat_them() -> None:
    """To blow does what cleaning the hook does."""
    assert [TABLE.repeats(tried) for tried in (0, 0b011, 0b100, 0b111, 0b011)] == [0, 0, 0b100, 0b100, 0]
    both = Table(replace(DOUBT, case=replace(DOUBT.case, checks=(LISTEN, TURN, replace(BLOW, sees=dict(zip(IDS, (0, 1, 1, 0)))), LOOK))))
    assert [both.repeats(tried) for tried in (0b001, 0b100, 0b101)] == [0, 0, 0b100]


def test_after_the_weights_of_the_causes_come_those_of_remedies_that_cure_several() -> None:
    assert TABLE.chances(WEIGHTS) == (*WEIGHTS, 2 + 3)
    assert doubtful().chances((1, 2, 3)) == (1, 2, 3)
    twice = [("a", "clean"), ("b", "oil"), ("c", "clean"), ("d", "oil"), ("e", "set")]
    causes = tuple(Hypothesis(id, (id,), 1, Remedy(remedy, minutes=3)) for id, remedy in twice)
    table = Table(plain(Case(causes, (), Machine(), 2)))
    weights = (1, 2, 4, 8, 16, 32)
    assert table.chances(weights) == (*weights, 1 + 4, 2 + 8)
    assert table.mending(0, 0b111, 0, 0) == [(5, 6), (5, 7), (5, 4)]


def worth(saved: float) -> Table:
    """The case where a cure spares so many minutes: half of all remedies cure, and a job that comes back takes twice that less 10."""
    return Table(replace(DOUBT, cures=0.5, stop_minutes=10, come_back_minutes=2 * saved - 10))


ALL = 0b1111
MOTOR, TIMING, HOOK = 0, 5, 3
"Where the chance of each remedy stands: the timing cures two causes and stands behind them all."


@pytest.mark.parametrize(
    ("saved", "mending"),
    [(60, [(42, MOTOR), (22, TIMING), (8, HOOK)]), (42, [(22, TIMING), (8, HOOK)]), (22.5, [(22, TIMING), (8, HOOK)]), (22, [(8, HOOK)]), (8, [])],
)
def test_a_remedy_may_be_worth_its_minutes_where_a_cure_spares_more(saved: float, mending: list[tuple[float, int]]) -> None:
    assert worth(saved).saved == saved
    assert worth(saved).mending(0, 0b111, 0, ALL) == mending


def test_one_that_is_unproved_takes_the_cheapest_of_the_checks_that_can_prove_it_too() -> None:
    """To listen, 1 minute, is the motor's sign; to turn, 12 and 2 with all open, the timing's; nothing is the hook's."""
    table = worth(60)
    assert table.mending(0, 0b111, 0b111, ALL) == [(43, MOTOR), (34, TIMING)]
    assert table.mending(0, 0b111, 0b001, 0b1110) == [(22, TIMING), (8, HOOK)]
    assert table.mending(0b111, 0b111, 0b111, ALL) == [(33, MOTOR), (24, TIMING)]
    assert table.mending(0, 0b100, 0b001, ALL) == [(8, HOOK)]
    assert table.mending(0, 0b111, 0b111, ALL) == [(43, MOTOR), (34, TIMING)]


def test_the_cheapest_proof_from_here_need_not_be_the_first_check() -> None:
    """To listen takes 11 minutes here and shows the motor; so does turning, 12 minutes, and 2 once the bed is bare."""
    checks = (replace(LISTEN, minutes=11), replace(TURN, sees=dict(zip(IDS, (0, 0, 1, 2)))), BLOW, LOOK)
    doubt = replace(worth(80).doubt, case=replace(DOUBT.case, checks=checks))
    table = Table(doubt)
    assert table.remedies[0].proofs == (0, 1)
    assert table.mending(0, 0b001, 0b001, ALL) == [(42 + 11, MOTOR)]
    assert table.mending(0, 0b001, 0b001, 0b10) == [(42 + 12, MOTOR)]
    assert table.mending(0b011, 0b001, 0b001, ALL) == [(32 + 2, MOTOR)]
