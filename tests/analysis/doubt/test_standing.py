"""Where a job stands: on logs of invented cases against brute force, and rule by rule by hand."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Reading, plain
from generator.analysis.doubt.standing import (
    Standing,
    allowed_checks,
    allowed_remedies,
    check_minutes,
    check_number,
    must_check,
    not_cured,
    passed_over,
    remedy_minutes,
    remedy_number,
    seen,
    start,
    stop_cost,
)
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from tests.analysis.doubt.doubt_brute_force import Log, steps
from tests.analysis.doubt.doubt_by_hand import doubtful
from tests.analysis.doubt.doubt_cases import small_doubt


@pytest.mark.parametrize("block", range(8))
def test_what_may_come_next_and_what_it_takes_is_that_of_brute_force_all_along_a_job(block: int) -> None:
    """Minutes (times share) of every step that the rules allow, from the start to wherever chance leads."""
    for number in range(block, 160, 8):
        doubt, draw = small_doubt(number), Random(number)
        table, log = Table(doubt), ()
        now = start(table)
        while True:
            found = {then[0][len(log)][0] if then else "stop": cost for cost, then in steps(doubt, log)}
            assert allowed(table, now) == pytest.approx(found, abs=1e-12), (number, log)
            if not (ways := sorted(found.keys() - {"stop"})):
                break
            now, log = after(table, now, log, draw, draw.choice(ways))


def allowed(table: Table, now: Standing) -> dict[str, float]:
    """By the id of the step."""
    checks = {table.checks[n].id: now.share * check_minutes(table, now, table.checks[n]) for n in allowed_checks(table, now)}
    remedies = {table.remedies[n].id: now.share * remedy_minutes(table, now, table.remedies[n]) for n in allowed_remedies(table, now)}
    return {**checks, **remedies, **({} if must_check(table, now) else {"stop": stop_cost(table, now)})}


def after(table: Table, now: Standing, log: Log, draw: Random, name: str) -> tuple[Standing, Log]:
    """A check with one of the outcomes that do not end the job, or a remedy in vain."""
    if name in {c.id for c in table.checks}:
        number = check_number(table, name)
        outcome = draw.choice(table.checks[number].outcomes)
        return seen(table, now, number, outcome), (*log, (name, outcome))
    return not_cured(table, now, remedy_number(table, name)), (*log, (name, -1))


def test_at_the_start_nothing_is_open_done_or_seen() -> None:
    table = doubtful()
    assert start(table) == Standing((pytest.approx(0.36), pytest.approx(0.54), 0.1), 0, 0, 0, 0, ())
    assert start(table).share == pytest.approx(1)


def test_a_check_leaves_its_parts_open_and_its_sign_seen_and_weighs_the_causes_by_bayes() -> None:
    """Brushes worn: 0.36 x 0.95, 0.54 x 0.05, 0.1 x 0.05. The look is the second check, the motor the first remedy."""
    table = doubtful()
    worn = seen(table, start(table), 1, 0)
    assert worn == Standing(pytest.approx((0.342, 0.027, 0.005)), open_parts=1, checked=0b10, proved=0b01)
    both = seen(table, worn, 0, 0)
    assert (both.open_parts, both.checked, both.tried, both.proved) == (1, 0b11, 0, 0b11)


def test_a_remedy_in_vain_leaves_a_tenth_of_its_cause_and_its_parts_open() -> None:
    table = doubtful()
    vain = not_cured(table, start(table), 0)
    assert vain == Standing(pytest.approx((0.036, 0.54, 0.1)), open_parts=1, tried=0b01)
    assert remedy_minutes(table, start(table), table.remedies[0]) == 43
    assert remedy_minutes(table, vain, table.remedies[0]) == 39
    assert check_minutes(table, vain, table.checks[1]) == 0.5
    kept = not_cured(table, seen(table, start(table), 1, 0), 1)
    assert (kept.open_parts, kept.checked, kept.tried, kept.proved) == (1, 0b10, 0b10, 0b01)


def test_to_stop_is_thinking_for_all_and_coming_back_for_the_listed_causes() -> None:
    """15 + 45 x 0.9; after the belt in vain, 15 x 0.514 + 45 x 0.414."""
    table = doubtful()
    assert stop_cost(table, start(table)) == pytest.approx(15 + 40.5)
    assert stop_cost(table, not_cured(table, start(table), 1)) == pytest.approx(15 * 0.514 + 45 * 0.414)


def test_what_cannot_be_done_counts_as_done_and_tells_nothing() -> None:
    table = doubtful()
    now = passed_over(table, start(table), "look-motor")
    assert now == start(table)._replace(checked=0b10)
    assert passed_over(table, now, "set:belt") == now._replace(tried=0b10)
    assert passed_over(table, passed_over(table, now, "set:belt"), "look-belt") == now._replace(checked=0b11, tried=0b10)
    assert passed_over(table, passed_over(table, now, "set:belt"), "renew:motor") == now._replace(tried=0b11)
    assert passed_over(table, now, "look-motor") == now
    assert (check_number(table, "look-motor"), remedy_number(table, "set:belt")) == (1, 1)
    assert (check_number(table, "look-belt"), remedy_number(table, "renew:motor")) == (0, 0)


def four(**more: object) -> Table:
    """Four causes with a remedy each, and four checks: each shows two of the causes and is quiet for the others."""
    causes = tuple(Hypothesis(f"h{n}", (f"h{n}",), 1, Remedy(f"r{n}")) for n in range(4))
    shows = {0: {0: 0, 1: 0}, 1: {1: 0, 2: 1}, 2: {2: 0, 3: 0}, 3: {3: 0, 0: 1}}
    checks = tuple(
        Check(f"c{c}", 1, (), ("one", "other", "quiet"), {f"h{n}": shown.get(n, 2) for n in range(4)}) for c, shown in shows.items()
    )
    return Table(plain(Case(causes, checks, Machine(), 2), **more))


def test_nothing_is_done_twice() -> None:
    table = four()
    now = start(table)._replace(checked=0b0101, tried=0b1010)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([1, 3], [0, 2])
    none = start(table)._replace(checked=0b1111, tried=0b1111)
    assert (allowed_checks(table, none), allowed_remedies(table, none)) == ([], [])


def test_what_comes_before_all_else_comes_in_its_order_and_alone() -> None:
    table = four(before=("c2", "c0"))
    now = start(table)
    for number in (2, 0):
        assert must_check(table, now)
        assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([number], [])
        now = seen(table, now, number, 2)
    assert not must_check(table, now)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([1, 3], [0, 1, 2, 3])


def test_evidence_is_read_before_it_is_lost() -> None:
    """Check 3 and remedy 2 destroy what check 1 reads; check 3 also what check 0 reads."""
    table = four(lost=(("c3", "c1"), ("r2", "c1"), ("c3", "c0")))
    now = start(table)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([0, 1, 2], [0, 1, 3])
    now = seen(table, now, 1, 2)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([0, 2], [0, 1, 2, 3])
    now = passed_over(table, now, "c0")
    assert allowed_checks(table, now) == [2, 3]


def test_a_dear_remedy_waits_for_its_sign() -> None:
    """The first outcome of check 1 is the sign of remedy 1, the other that of remedy 2."""
    table = four(dear=frozenset({"r1", "r2"}))
    assert allowed_remedies(table, start(table)) == [0, 3]
    assert allowed_remedies(table, seen(table, start(table), 1, 0)) == [0, 1, 3]
    assert allowed_remedies(table, seen(table, start(table), 1, 1)) == [0, 2, 3]
    assert allowed_remedies(table, seen(table, start(table), 1, 2)) == [0, 3]


def test_on_a_fault_power_waits_until_all_that_may_mend_it_is_done() -> None:
    """Check 0 must be found sound; it shows the causes 0 and 1. Checks 1 and 3 want power."""
    table = four(before=("c0",), safe=frozenset({"c0"}), powered=frozenset({"c1", "c3"}))
    assert seen(table, start(table), 0, 2).unsafe() is None
    now = seen(table, start(table), 0, 0)
    assert (now.faults, now.unsafe()) == ((0b0011,), 0b0011)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([2], [0, 1])
    now = not_cured(table, now, 0)
    assert (now.unsafe(), allowed_checks(table, now), allowed_remedies(table, now)) == (0b0010, [2], [1])
    now = not_cured(table, now, 1)
    assert (now.unsafe(), allowed_checks(table, now), allowed_remedies(table, now)) == (None, [1, 2, 3], [2, 3])


def test_on_a_fault_that_no_listed_remedy_mends_power_waits_for_good() -> None:
    """No cause shows the other outcome of check 0. A fault that is mended adds nothing to one that stands."""
    table = four(before=("c0",), safe=frozenset({"c0"}), powered=frozenset({"c1", "c3"}))
    now = seen(table, start(table), 0, 1)
    assert (now.faults, now.unsafe()) == ((0,), 0)
    assert (allowed_checks(table, now), allowed_remedies(table, now)) == ([2], [])
    assert now._replace(faults=(0, 0b0110), tried=0b0110).unsafe() == 0
    assert now._replace(faults=(0b1000, 0b0110), tried=0b0010).unsafe() == 0b1100
    assert seen(table, now._replace(faults=(0b1000,)), 0, 1).faults == (0b1000, 0)
    assert seen(table, now, 2, 0).faults == (0,)  # check 2 need not be found sound


def test_a_trial_of_what_was_done_counts_as_done_and_a_trial_does_its_remedies() -> None:
    """The trial would cure what remedy 0 cures, and does remedy 2 on its way."""
    table = four()
    cured = frozenset({0})
    trial = Check("try", 1, (), ("cured", "still there"), {"h0": 0, "h1": 1, "h2": 1, "h3": 1}, cured)
    case = Case(table.doubt.case.hypotheses, (*table.doubt.case.checks, trial), Machine(), 2)
    readings = {**plain(case).readings, "try": Reading(1, (0.95, 0.95), frozenset({"r2"}))}
    table = Table(replace(table.doubt, case=case, readings=readings))
    still = seen(table, start(table), 4, 1)
    assert (still.checked, still.tried, still.proved) == (0b10000, 0b0101, 0)
    one = not_cured(table, start(table), 0)
    assert (one.checked, allowed_checks(table, one)) == (0, [0, 1, 2, 3, 4])
    two = not_cured(table, one, 2)
    assert (two.checked, allowed_checks(table, two)) == (0b10000, [0, 1, 2, 3])
    wide = seen(table, one._replace(checked=0b0001), 4, 1)
    assert (wide.checked, wide.tried) == (0b10001, 0b0101)
