"""Shares after readings and remedies, held against a general-purpose library for Bayesian networks."""

from __future__ import annotations

import random

import pytest
from pgmpy.factors.discrete import TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, Doubt, Reading, plain
from generator.analysis.doubt.ranking import TWO_FAULTS, USED_UP, ranking
from generator.analysis.doubt.standing import Standing, not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy


def _network(doubt: Doubt) -> DiscreteBayesianNetwork:
    """A cause, the readings of every check and whether each remedy would cure, by the rules as they are written."""
    hypotheses, checks = doubt.case.hypotheses, doubt.case.checks
    prior = [h.share * (1 - doubt.unlisted) for h in hypotheses] + [doubt.unlisted]
    network = DiscreteBayesianNetwork([("cause", c.id) for c in checks] + [("cause", h.remedy.id) for h in hypotheses])
    tables = [TabularCPD("cause", len(prior), [[p] for p in prior])]
    for check in checks:
        shows = [*(check.sees[h.id] for h in hypotheses), doubt.readings[check.id].sound]
        rows = [[_chance(doubt, check, outcome, shown) for shown in shows] for outcome in range(len(check.outcomes))]
        tables.append(TabularCPD(check.id, len(rows), rows, ["cause"], [len(prior)]))
    for remedy in dict.fromkeys(h.remedy.id for h in hypotheses):
        cures = [doubt.cures * (h.remedy.id == remedy) for h in hypotheses] + [0.0]
        tables.append(TabularCPD(remedy, 2, [[1 - c for c in cures], cures], ["cause"], [len(prior)]))
    network.add_cpds(*tables)
    return network


def _chance(doubt: Doubt, check: Check, outcome: int, shown: int) -> float:
    others = [n for n in range(len(check.outcomes)) if n != shown and n not in check.cured]
    right = doubt.readings[check.id].trust[shown] if others else 1.0
    if outcome == shown:
        return right
    return (1 - right) / len(others) if outcome in others else 0.0


def _case(draw: random.Random) -> Doubt:
    causes = [f"h{n}" for n in range(draw.randint(2, 6))]
    hypotheses = [Hypothesis(c, (c,), draw.uniform(0.01, 1), Remedy(f"r{draw.randrange(4)}", minutes=2)) for c in causes]
    checks, readings = [], {}
    for number in range(draw.randint(1, 4)):
        count = draw.randint(2, 4)
        cured = frozenset({0}) if draw.random() < 0.3 else frozenset[int]()
        checks.append(Check(f"c{number}", 1, (), tuple("abcd"[:count]), {c: draw.randrange(count) for c in causes}, cured))
        readings[f"c{number}"] = Reading(count - 1, tuple(draw.uniform(0.6, 0.99) for _ in range(count)))
    return Doubt(Case(tuple(hypotheses), tuple(checks), Machine(), 2), readings, unlisted=draw.choice((0.03, 0.2)))


@pytest.mark.parametrize("seed", range(40))
def test_shares_are_those_of_pgmpy_on_the_same_network(seed: int) -> None:
    draw = random.Random(seed)
    doubt = _case(draw)
    table, evidence = Table(doubt), {}
    now = start(table)
    for number, check in enumerate(doubt.case.checks):
        outcome = draw.choice([n for n in range(len(check.outcomes)) if n not in check.cured])
        now, evidence[check.id] = seen(table, now, number, outcome), outcome
    tried = draw.randrange(len(table.remedies))
    now, evidence[table.remedies[tried].id] = not_cured(table, now, tried), 0
    found = VariableElimination(_network(doubt)).query(["cause"], evidence=evidence, show_progress=False).values
    shares = ranking(table, now).shares
    assert [shares[h.id] for h in doubt.case.hypotheses] + [shares[SOMETHING_ELSE]] == pytest.approx(list(found), abs=1e-9)


def _look(trust: float, *, unlisted: float = 0.0) -> Table:
    """Two causes and a check with an outcome that neither shows, nor a sound machine."""
    a, b = (Hypothesis(n, (n,), 1, Remedy(f"mend-{n}", minutes=2)) for n in "ab")
    look = Check("look", 1, (), ("a", "b", "neither", "sound"), {"a": 0, "b": 1})
    return Table(plain(Case((a, b), (look,), Machine(), 2), trust, unlisted=unlisted))


def test_the_largest_share_comes_first_and_ties_go_by_id() -> None:
    table = _look(0.95)
    assert list(ranking(table, start(table)).shares) == ["a", "b", SOMETHING_ELSE]
    assert list(ranking(table, seen(table, start(table), 0, 1)).shares)[0] == "b"


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
