"""Bayes' rule for answers, held against a general-purpose library."""

from __future__ import annotations

import random

import pytest
from pgmpy.factors.discrete import TabularCPD
from pgmpy.inference import VariableElimination
from pgmpy.models import DiscreteBayesianNetwork

from generator.analysis.diagnosis import Answer, rank


def test_the_burglary_network_gives_the_published_answer():
    """P(burglary | both call) = 0.284: Pearl; Russell and Norvig, Artificial Intelligence (from memory).

    The four joint states of burglary and earthquake are the hypotheses. Each neighbour's answer is
    weighed by the alarm: two outcomes, so a table of likelihoods stands in for one trust.
    """
    prior = {"bE": 0.001 * 0.998, "be": 0.001 * 0.002, "Be": 0.999 * 0.002, "BE": 0.999 * 0.998}
    alarm = {"bE": 0.94, "be": 0.95, "Be": 0.29, "BE": 0.001}
    weights = {}
    for state, p in prior.items():
        weights[state + "a"] = p * alarm[state]
        weights[state + "A"] = p * (1 - alarm[state])
    called = {h: 0 if h.endswith("a") else 1 for h in weights}
    john = {h: w * (0.90 if called[h] == 0 else 0.05) for h, w in weights.items()}
    both = {h: w * (0.70 if called[h] == 0 else 0.01) for h, w in john.items()}
    shares = rank(both).shares
    assert sum(s for h, s in shares.items() if h.startswith("b")) == pytest.approx(0.284, abs=0.0005)


def _case(seed: int):
    draw = random.Random(seed)
    hypotheses = [f"h{n}" for n in range(draw.randint(2, 6))]
    prior = {h: draw.uniform(0.01, 1) for h in hypotheses}
    answers = []
    for number in range(draw.randint(1, 4)):
        outcomes = draw.randint(2, 4)
        sees = {h: draw.randrange(outcomes) for h in hypotheses}
        answers.append(Answer(f"c{number}", draw.randrange(outcomes), outcomes, sees, draw.uniform(0.6, 0.99)))
    return prior, answers


@pytest.mark.parametrize("seed", range(40))
def test_shares_are_those_of_pgmpy_on_the_same_network(seed):
    prior, answers = _case(seed)
    names, whole = list(prior), sum(prior.values())
    network = DiscreteBayesianNetwork([("cause", a.check) for a in answers])
    tables = [TabularCPD("cause", len(names), [[prior[h] / whole] for h in names])]
    for a in answers:
        doubt = (1 - a.trust) / (a.outcomes - 1)
        rows = [[a.trust if a.sees[h] == o else doubt for h in names] for o in range(a.outcomes)]
        tables.append(TabularCPD(a.check, a.outcomes, rows, ["cause"], [len(names)]))
    network.add_cpds(*tables)
    evidence = {a.check: a.outcome for a in answers}
    found = VariableElimination(network).query(["cause"], evidence=evidence, show_progress=False).values
    shares = rank(prior, answers).shares
    assert [shares[h] for h in names] == pytest.approx(list(found), abs=1e-9)


def test_the_largest_share_comes_first_and_ties_go_by_id():
    assert list(rank({"b": 1, "a": 1, "c": 2}).shares) == ["c", "a", "b"]


def test_an_answer_that_no_cause_shows_is_named():
    answer = Answer("look", 2, 3, {"a": 0, "b": 1}, 0.95)
    found = rank({"a": 1, "b": 1}, [answer])
    assert "'look'" in found.said and found.against == 1
    assert found.shares == {"a": 0.5, "b": 0.5}


def test_a_certain_answer_that_contradicts_all_leaves_the_shares_as_they_were():
    answer = Answer("look", 2, 3, {"a": 0, "b": 1}, 1.0)
    assert rank({"a": 3, "b": 1}, [answer]).shares == {"a": 0.75, "b": 0.25}
