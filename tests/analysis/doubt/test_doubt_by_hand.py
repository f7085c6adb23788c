"""The next step, what is still to come, the bound and the sentence, on a case reckoned by hand with its formulas."""

from __future__ import annotations

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, Doubt, plain
from generator.analysis.doubt.known_cause import KnownCause
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.ranking import TWO_FAULTS, USED_UP, ranking
from generator.analysis.doubt.standing import Standing, not_cured, passed_over, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, MachinePart, Remedy

MOTOR = Hypothesis("motor-worn", ("motor-worn",), 2, Remedy("renew:motor", reach=("cover",), minutes=37))
BELT = Hypothesis("belt-loose", ("belt-loose",), 3, Remedy("set:belt", minutes=5))
LOOK_BELT = Check("look-belt", 1, (), ("loose", "right"), {"motor-worn": 1, "belt-loose": 0})
LOOK_MOTOR = Check("look-motor", 0.5, ("cover",), ("brushes worn", "brushes good"), {"motor-worn": 0, "belt-loose": 1})
MACHINE = Machine({"cover": MachinePart("cover", (), 1, 3)})


def doubtful(*more: Check, come_back: float = 45, before: tuple[str, ...] = ()) -> Table:
    """0.36 motor, 0.54 belt, 0.1 neither; readings right in 95 of 100; the cover is 4 minutes, the proving sew 2."""
    case = Case((MOTOR, BELT), (LOOK_BELT, LOOK_MOTOR, *more), MACHINE, 2)
    told: Doubt = plain(
        case, trust=0.95, unlisted=0.1, cures=0.9, stop_minutes=15, come_back_minutes=come_back, dear=frozenset({"renew:motor"}),
        before=before, safe=frozenset(before),
    )  # fmt: skip
    return Table(told)


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
