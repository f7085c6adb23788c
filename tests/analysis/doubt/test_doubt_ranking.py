"""Shares after readings and remedies, held against a general-purpose library for Bayesian networks."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import SOMETHING_ELSE, Doubt, Reading
from generator.analysis.doubt.ranking import ranking
from generator.analysis.doubt.standing import not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy

if TYPE_CHECKING:
    from pgmpy.models import DiscreteBayesianNetwork


def _network(doubt: Doubt) -> DiscreteBayesianNetwork:
    """A cause, the readings of every check and whether each remedy would cure, by the rules as they are written."""
    from pgmpy.factors.discrete import (
        TabularCPD,  # slow to load, and every process of a run looks through this file
    )
    from pgmpy.models import DiscreteBayesianNetwork

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
    from pgmpy.inference import VariableElimination

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
