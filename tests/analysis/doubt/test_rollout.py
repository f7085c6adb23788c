"""A better rule from the next step: on a case by hand, and against its policies grown move by move."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Hypothesis
from generator.analysis.doubt.case import plain
from generator.analysis.doubt.grow import STOP, Grower, Move
from generator.analysis.doubt.next_step import next_move, next_steps
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.rollout import Rollout
from generator.analysis.doubt.standing import Standing, must_check, not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import expected_minutes
from tests.analysis.doubt.doubt_by_hand import doubtful, tension
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt


def test_a_remedy_that_takes_little_more_than_the_look_for_it_comes_first() -> None:
    """The next step looks: 1 over 1/2 is 2, the spring 1.2 over 1/2 is 2.4. But looking is 1 + 0.6 + 10, the spring at once 1.2 + 10."""
    table = tension()
    assert next_move(table, start(table)) == ("check", 0)
    assert Rollout(table).move(table, start(table)) == ("remedy", 0)


def test_no_more_than_six_steps_are_followed() -> None:
    """Looks score 2, the spring 2.4: after five of them it is the sixth, after six it is not looked at any more."""
    assert Rollout(tension(5)).move(tension(5), start(tension(5))) == ("remedy", 0)
    assert Rollout(tension(6)).move(tension(6), start(tension(6))) == ("check", 0)


def test_where_fewer_than_two_jobs_in_a_hundred_come_the_next_step_is_taken() -> None:
    table = tension()
    rule = Rollout(table).move
    assert rule(table, Standing((0.01, 0.01, 0.0))) == ("remedy", 0)
    assert rule(table, Standing((0.0099, 0.01, 0.0))) == ("check", 0)
    last = Rollout(table).last_move
    assert last(table, Standing((0.01, 0.01, 0.0))) == ("remedy", 0)
    assert last(table, Standing((0.0099, 0.01, 0.0))) == ("check", 0)


def test_a_tie_of_two_moves_is_remembered_and_no_other() -> None:
    """Two springs of the same minutes and chance, to be set in either order; on the tension one move is best."""
    plainly = Rollout(tension())
    assert not plainly.tied
    plainly.move(tension(), start(tension()))
    assert not plainly.tied
    springs = tuple(Hypothesis(i, (i,), 1, Remedy(f"set-{i}", minutes=5)) for i in ("upper", "lower"))
    table = Table(plain(Case(springs, (), Machine(), 0), unlisted=0.0, cures=1.0))
    alike = Rollout(table)
    assert (alike.move(table, start(table)), alike.last_move(table, start(table))) == (("remedy", 1), ("remedy", 0))
    assert alike.tied
    alike.move(table, not_cured(table, start(table), 0))
    assert alike.tied, "one that was met stays met"


def test_to_stop_is_one_of_the_moves_but_where_a_check_must_come_first() -> None:
    """Where stopping costs nothing it is best; a look at the wiring comes all the same."""
    free = replace(doubtful().doubt, stop_minutes=0.0, come_back_minutes=0.0)
    table, wired = Table(free), Table(replace(free, before=("look-motor",)))
    assert Rollout(table).move(table, start(table)) == STOP
    assert Rollout(wired).move(wired, start(wired)) == ("check", 1)


@pytest.mark.parametrize("doubt", [*map(small_doubt, range(40)), bench_doubt(0, 6, 5), bench_doubt(1, 7, 6)])
def test_the_move_is_the_best_of_the_six_best_next_steps_when_the_next_step_follows(doubt) -> None:
    """Minutes of each first move as the expected minutes of the whole policy after it, grown and added up as it is published."""
    table = Table(doubt)
    rule = Rollout(table)
    for now in places(table, start(table), 2):
        if now.share < 0.02:
            continue
        first = [step.move for step in next_steps(table, now)][:6] + [STOP] * (not must_check(table, now))
        minutes = {move: ruled(table, now, move) for move in first}
        least = [move for move in first if minutes[move] == pytest.approx(min(minutes.values()), abs=1e-9)]
        assert (rule.move(table, now), rule.last_move(table, now)) == (least[0], least[-1])


def ruled(table: Table, now: Standing, first: Move) -> float:
    """Minutes (times share) of a move and then the next steps, with the outlook where less than one job in a hundred comes."""
    moves = iter([first])
    grown = Grower(table, lambda table, now: next(moves, None) or next_move(table, now), 0.01, outlook)
    return expected_minutes(grown.policy(now))


def places(table: Table, now: Standing, deep: int) -> Iterator[Standing]:
    """Where jobs come by the first three of the next steps, and so on."""
    yield now
    for step in next_steps(table, now)[:3] if deep else []:
        kind, number = step.move
        then = [not_cured(table, now, number)] if kind == "remedy" else []
        then = [seen(table, now, number, o) for o in table.checks[number].outcomes] if kind == "check" else then
        for after in then:
            yield from places(table, after, deep - 1)
