"""The order under doubt against general libraries: Bayes' rule by pgmpy, the least minutes by scipy."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.sparse import lil_matrix

from generator.analysis.doubt.case import Doubt
from generator.analysis.doubt.order import order
from generator.analysis.doubt.standing import seen, start
from generator.analysis.doubt.table import Table
from tests.analysis.doubt.doubt_brute_force import SOMETHING_ELSE, Log, steps
from tests.analysis.doubt.doubt_brute_force import seen as chances_of
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt

if TYPE_CHECKING:
    from pgmpy.models import DiscreteBayesianNetwork


def _network(doubt: Doubt) -> DiscreteBayesianNetwork:
    """The cause, and the reading of every check, which depends on nothing else."""
    from pgmpy.factors.discrete import (
        TabularCPD,  # slow to load, and every process of a run looks through this file
    )
    from pgmpy.models import DiscreteBayesianNetwork

    causes = [h.id for h in doubt.case.hypotheses] + [SOMETHING_ELSE]
    prior = [h.share * (1 - doubt.unlisted) for h in doubt.case.hypotheses] + [doubt.unlisted]
    network = DiscreteBayesianNetwork([("cause", c.id) for c in doubt.case.checks])
    network.add_cpds(TabularCPD("cause", len(causes), [[p] for p in prior]))
    for check in doubt.case.checks:
        table = np.array([chances_of(doubt, check, cause) for cause in causes]).T
        network.add_cpds(TabularCPD(check.id, len(check.outcomes), table, ["cause"], [len(causes)]))
    return network


@pytest.mark.parametrize("number", range(4))
def test_beliefs_after_readings_are_those_of_a_bayesian_network(number: int) -> None:
    from pgmpy.inference import VariableElimination

    doubt = bench_doubt(number, 7, 4)
    table, network = Table(doubt), VariableElimination(_network(doubt))
    now, evidence = start(table), {}
    for index, check in enumerate(doubt.case.checks):
        outcome = table.checks[index].outcomes[number % len(table.checks[index].outcomes)]
        evidence[check.id] = outcome
        now = seen(table, now, index, outcome)
        expected = network.query(["cause"], evidence=evidence, show_progress=False).values
        assert [w / now.share for w in now.weights] == pytest.approx(list(expected))


def _logs(doubt: Doubt) -> dict[Log, list[tuple[float, list[Log]]]]:
    """Every job log that can be, with what each step from it costs and leads to, by brute force."""
    rows: dict[Log, list[tuple[float, list[Log]]]] = {}
    stack: list[Log] = [()]
    while stack:
        log = stack.pop()
        if log not in rows:
            rows[log] = list(steps(doubt, log))
            stack += [then for _, logs in rows[log] for then in logs]
    return rows


@pytest.mark.parametrize("number", range(0, 120, 5))
def test_the_least_minutes_are_those_of_a_linear_program(number: int) -> None:
    """Puterman, Markov Decision Processes, 1994, section 7.2.7: values as large as steps allow."""
    doubt = small_doubt(number)
    logs = _logs(doubt)
    index = {log: n for n, log in enumerate(logs)}
    found_steps = [(log, cost, then) for log, row in logs.items() for cost, then in row]
    matrix = lil_matrix((len(found_steps), len(logs)))
    for n, (log, _, then) in enumerate(found_steps):
        matrix[n, index[log]] += 1
        for after in then:
            matrix[n, index[after]] -= 1
    found = linprog(-np.ones(len(logs)), matrix.tocsr(), [cost for _, cost, _ in found_steps], bounds=(0, None))
    assert found.success
    assert order(doubt, 100_000).expected_minutes == pytest.approx(found.x[index[()]], abs=1e-6)
