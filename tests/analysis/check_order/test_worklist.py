"""A policy as a numbered list says the same as the policy."""

from __future__ import annotations

import random

import pytest

from generator.analysis.check_order import (
    Case,
    Check,
    CheckNode,
    Hypothesis,
    RemedyNode,
    expected_minutes,
    solve,
)
from generator.analysis.check_order.worklist import worklist
from generator.analysis.machine import Machine, Part, Remedy


def _case(seed: int) -> Case:
    draw = random.Random(seed)
    parts = {p: Part(p, behind, draw.uniform(0, 4), draw.uniform(0, 4)) for p, behind in (("a", ()), ("b", ("a",)))}
    hypotheses = tuple(
        Hypothesis(f"h{n}", (f"h{n}",), draw.uniform(0.1, 1), Remedy(f"r{n % 4}", reach=("b",) if n % 4 == 0 else (), minutes=5 + n % 4))
        for n in range(6)
    )
    checks = tuple(
        Check(f"c{n}", draw.uniform(0.5, 5), draw.choice([(), ("a",), ("b",)]), ("x", "y", "z"), {h.id: draw.randrange(3) for h in hypotheses}, frozenset({2}) if n == 0 else frozenset())
        for n in range(4)
    )
    return Case(hypotheses, checks, Machine(parts, {}), 2)


@pytest.fixture(params=range(25))
def solved(request):
    case = _case(request.param)
    return case, solve(case).policy


def _nodes(node):
    if isinstance(node, CheckNode):
        yield node
        for branch in node.branches:
            yield from _nodes(branch.then)
    elif isinstance(node, RemedyNode):
        yield from _nodes(node.otherwise)


def test_numbers_run_from_one_without_a_gap(solved):
    numbers = [item.number for item in worklist(*solved).items]
    assert numbers == list(range(1, len(numbers) + 1))


def test_every_check_of_the_policy_stands_once_in_the_list(solved):
    case, policy = solved
    assert sorted(i.check for i in worklist(case, policy).items) == sorted(n.check for n in _nodes(policy))


def test_minutes_of_the_list_add_up_to_the_expected_ones(solved):
    case, policy = solved
    work = worklist(case, policy)
    total, left = 0.0, 1.0
    for trial in work.trials:
        total += trial.minutes * left
        left -= sum(h.share for h in trial.cures)
    for item in work.items:
        total += item.minutes * item.share
        for row in item.rows:
            mass = row.share * item.share
            for trial in row.trials:
                total += trial.minutes * mass
                mass -= sum(h.share for h in trial.cures)
    assert total == pytest.approx(expected_minutes(policy))


def test_the_likeliest_answer_leads_to_the_next_number(solved):
    for item in worklist(*solved).items:
        going_on = [row for row in item.rows if row.then]
        if going_on:
            likeliest = max(going_on, key=lambda row: (row.share, -row.outcome))
            assert likeliest.then == item.number + 1


def test_an_item_says_what_is_still_to_expect(solved):
    case, policy = solved
    work = worklist(case, policy)
    if not work.trials:
        assert work.items[0].expected == pytest.approx(expected_minutes(policy))
