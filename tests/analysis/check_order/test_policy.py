"""A policy can be added up by anyone, and is the same every time."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis, solve
from generator.analysis.check_order.bounds import Lower
from generator.analysis.check_order.cost import board
from generator.analysis.check_order.exact import Search
from generator.analysis.check_order.policy import grow
from generator.analysis.check_order.rules import next_in_record
from generator.analysis.check_order.situation import Situation
from generator.analysis.check_order.states import States
from generator.analysis.machine import Machine, MachinePart, Remedy
from generator.analysis.policy import to_json
from tests.analysis.check_order.order_cases import bench_case, random_case
from tests.analysis.check_order.order_hand_case import CASE, TRIAL, WATCH
from tests.analysis.check_order.order_plain import ratio_order, record_order


def _walked(job: Case, node: dict | None, left: list[Hypothesis]) -> Iterator[float]:
    """Minutes x share of every node of a policy as plain data, followed for what is left."""
    while node is not None and "remedy" in node:
        yield node["minutes"] * sum(h.share for h in left)
        cured = [h for h in left if h.remedy.id == node["remedy"]]
        assert node["cured_share"] == pytest.approx(sum(h.share for h in cured))
        left, node = [h for h in left if h not in cured], node["else"]
    if node is None:
        return
    yield node["minutes"] * sum(h.share for h in left)
    (check,) = [c for c in job.checks if c.id == node["check"]]
    assert [o["outcome"] - 1 for o in node["outcomes"]] == sorted({check.sees[h.id] for h in left})
    for outcome in node["outcomes"]:
        shown = [h for h in left if check.sees[h.id] == outcome["outcome"] - 1]
        assert outcome["share"] == pytest.approx(sum(h.share for h in shown))
        assert (outcome["then"] is None) == (outcome["outcome"] - 1 in check.cured)
        yield from _walked(job, outcome["then"], shown)


def _searched(job: Case, reached: float) -> float:
    """The value that the search finds, before any policy is written out."""
    states = States(board(job))
    search = Search(Lower(states), budget=20_000)
    assert search.run(reached)
    return search.bound(states.start())


@pytest.mark.parametrize("number", range(150))
def test_the_value_that_the_search_finds_is_the_policy_added_up(number: int) -> None:
    job = bench_case(number, 9, 9) if number % 5 else random_case(number, (1, 6), (0, 6))
    minutes = solve(job).expected_minutes
    for known in (minutes, minutes + 5):
        assert _searched(job, known) == pytest.approx(minutes, abs=1e-9)


def test_a_remedy_counts_what_is_open_though_a_trial_would_be_cheaper() -> None:
    """By hand: cover 4 + look 1 tell all three apart; each remedy is then 20 with the cover off."""
    ids = ("a", "b", "c")
    found = [Hypothesis(i, (i,), 1, Remedy(i, reach=("cover",), minutes=20)) for i in ids]
    look = Check("look", 1, ("cover",), ids, {"a": 0, "b": 1, "c": 2})
    trial = Check("trial", 12, (), ("cured", "not"), {"a": 0, "b": 1, "c": 1}, frozenset({0}))
    job = Case(tuple(found), (look, trial), Machine({"cover": MachinePart("cover", (), 2, 2)}), 0)
    assert _searched(job, 30) == pytest.approx(25)
    assert solve(job).expected_minutes == pytest.approx(25)


@pytest.mark.parametrize("number", range(40))
def test_minutes_times_share_over_all_nodes_add_up_to_the_expected_minutes(number: int) -> None:
    job = bench_case(number, 10, 12)
    solution = solve(job)
    added = sum(_walked(job, to_json(solution.policy), list(job.hypotheses)))
    assert added == pytest.approx(solution.expected_minutes, abs=1e-9)


def test_a_policy_as_plain_data_has_the_promised_keys_and_figures() -> None:
    """By hand: trial 2; then plate 2 + watch 1; then gear 8 + sew 2, or clean 3 + sew 2."""
    gear = {"remedy": "renew-gear", "opens": ["gear"], "minutes": 10, "cured_share": 0.2}
    lint = {"remedy": "clean", "opens": [], "minutes": 5, "cured_share": 0.3}
    watch = {
        "check": "watch",
        "opens": ["plate"],
        "minutes": 3,
        "outcomes": [
            {"outcome": 1, "says": "stands", "share": 0.2, "unlikely": False, "then": gear | {"else": None}},
            {"outcome": 2, "says": "turns", "share": 0.3, "unlikely": False, "then": lint | {"else": None}},
        ],
    }
    sews = {"outcome": 1, "says": "sews", "share": 0.5, "unlikely": False, "then": None}
    still = {"outcome": 2, "says": "still skips", "share": 0.5, "unlikely": False, "then": watch}
    solution = solve(CASE)
    assert to_json(solution.policy) == {
        "check": "trial", "opens": [], "minutes": 2, "outcomes": [sews, still]
    }
    assert solution.expected_minutes == pytest.approx(2 + 0.5 * 3 + 0.2 * 10 + 0.3 * 5)


def test_the_record_order_does_each_check_that_still_tells() -> None:
    """By hand: plate 2 + watch 1; gear 10; else trial 2; lint 5. Reversed: the best order above."""
    assert record_order(CASE) == pytest.approx(3 + 0.2 * 10 + 0.8 * 2 + 0.3 * 5)
    assert record_order(replace(CASE, checks=(TRIAL, WATCH))) == pytest.approx(7)


def test_the_record_order_tries_remedies_in_the_order_of_the_hypotheses() -> None:
    """By hand: needle 3; clean 2 + 5; gear 8 + 2 with the plate off already."""
    assert record_order(replace(CASE, checks=())) == pytest.approx(3 + 0.5 * 7 + 0.2 * 10)


def test_the_ratio_order_takes_the_step_of_most_probability_for_its_cost() -> None:
    """By hand: trial 0.5 / 2 beats needle 0.5 / 3; then watch 0.5 / 3 beats clean 0.3 / 7."""
    assert ratio_order(CASE) == pytest.approx(2 + 0.5 * 3 + 0.2 * 10 + 0.3 * 5)
    dear = replace(TRIAL, minutes=3.5)
    assert ratio_order(replace(CASE, checks=(dear,))) == pytest.approx(3 + 0.5 * 7 + 0.2 * 10)


@pytest.mark.parametrize("number", range(100))
def test_no_plain_rule_beats_the_best_order(number: int) -> None:
    job = random_case(number, causes=(2, 8), checks=(0, 8))
    least = solve(job).expected_minutes
    assert record_order(job) >= least - 1e-9
    assert ratio_order(job) >= least - 1e-9


@pytest.mark.parametrize("number", range(20))
def test_the_order_of_the_records_does_not_change_the_expected_minutes(number: int) -> None:
    job, rng = bench_case(number, 9, 10), Random(number)
    mixed = replace(
        job,
        hypotheses=tuple(rng.sample(job.hypotheses, len(job.hypotheses))),
        checks=tuple(rng.sample(job.checks, len(job.checks))),
    )
    assert solve(mixed).expected_minutes == pytest.approx(solve(job).expected_minutes, abs=1e-9)


def test_the_policy_is_the_same_whatever_the_hash_of_a_string() -> None:
    program = (
        "from tests.analysis.check_order.order_cases import bench_case;"
        "from generator.analysis.check_order import *;"
        "print([(solve(bench_case(n, 12, 12)), solve(bench_case(n, 12, 12), 0)) for n in range(4)])"
    )
    root = str(Path(__file__).parents[3])
    printed = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": salt, "PYTHONPATH": root},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for salt in ("1", "2", "3")
    }
    assert len(printed) == 1


def test_shares_of_a_policy_are_of_what_it_begins_with() -> None:
    """Begun where the needle is ruled out, lint and gear are 0.3 and 0.2 of 0.5."""
    policy = grow(Situation(CASE, CASE.hypotheses[1:]), next_in_record)
    assert [branch.share for branch in policy.branches] == pytest.approx([0.4, 0.6])
    assert [branch.then.cured_share for branch in policy.branches] == pytest.approx([0.4, 0.6])
