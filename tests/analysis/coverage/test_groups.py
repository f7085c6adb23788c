"""Ambiguity groups and isolated fractions, by hand, by brute force and by graph components.

Terms: MIL-STD-2165 and IEEE 1522, formulas from memory.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.coverage import (
    ambiguity_groups,
    isolated,
    isolated_to_remedies,
    matrix,
    silent_checks,
)
from generator.analysis.machine import Machine, Remedy
from tests.analysis.check_order.order_cases import random_case

NEEDLE, TIMING, CLEAN, GAP = Remedy("needle"), Remedy("timing"), Remedy("clean"), Remedy("gap")


def hand_case(*checks: Check) -> Case:
    """Shares .4, .2, .1, .1, .1, .1."""
    remedies = {"bent": NEEDLE, "blunt": NEEDLE, "late": TIMING, "early": TIMING, "wide": GAP, "lint": CLEAN}
    shares = dict(zip(remedies, (4, 2, 1, 1, 1, 1)))
    hypotheses = tuple(Hypothesis(h, (h,), shares[h], r) for h, r in remedies.items())
    return Case(hypotheses, checks, Machine(), 2)


def check(name: str, outcomes: str, cured: int | None = None) -> Check:
    """One digit for each hypothesis."""
    sees = dict(zip(("bent", "blunt", "late", "early", "wide", "lint"), map(int, outcomes)))
    return Check(name, 1, (), ("a", "b", "c"), sees, frozenset() if cured is None else frozenset({cured}))


HAND = hand_case(check("roll", "002222"), check("watch", "220002"))
"By hand: {bent, blunt} .6 with one remedy, {late, early, wide} .3 with two, {lint} .1."


def test_by_hand_the_groups_are_those_with_equal_rows() -> None:
    groups = ambiguity_groups(HAND)
    assert [[h.id for h in g.hypotheses] for g in groups] == [["bent", "blunt"], ["late", "early", "wide"], ["lint"]]
    assert [round(g.weight, 12) for g in groups] == [0.6, 0.3, 0.1]
    assert [g.remedies for g in groups] == [("needle",), ("timing", "gap"), ("clean",)]


@pytest.mark.parametrize(("most", "causes", "remedies"), [(1, 0.1, 0.7), (2, 0.7, 1.0), (3, 1.0, 1.0)])
def test_by_hand_the_isolated_fractions(most: int, causes: float, remedies: float) -> None:
    groups = ambiguity_groups(HAND)
    assert isolated(groups, most) == pytest.approx(causes)
    assert isolated_to_remedies(groups, most) == pytest.approx(remedies)


def test_the_fraction_is_of_the_causes_given_so_undetected_ones_can_be_left_out() -> None:
    """FFI = isolated over detected: without lint, which both checks pass over, .6 of .9."""
    detected = [g for g in ambiguity_groups(HAND) if g.hypotheses[0].id != "lint"]
    assert isolated(detected, 2) == pytest.approx(0.6 / 0.9)


def test_a_trial_that_cures_a_whole_group_counts_as_its_one_remedy() -> None:
    trial = hand_case(check("roll", "002222"), check("trial", "220002", cured=0))
    groups = ambiguity_groups(trial)
    assert [g.cured_by for g in groups] == [None, "trial", None]
    assert isolated_to_remedies(groups, 1) == pytest.approx(1.0)
    assert isolated(groups, 1) == pytest.approx(0.1)


def test_silent_checks_show_one_outcome_and_cure_nobody() -> None:
    silent, all_cured, never = check("silent", "222222"), check("all", "000000", 0), check("never", "111111", 0)
    assert silent_checks(hand_case(silent, all_cured, never, check("roll", "002222"))) == ("silent", "never")


cases = st.integers(0, 10_000).map(lambda n: random_case(n, (1, 9), (0, 6)))


@settings(deadline=None)
@given(cases)
def test_groups_part_the_hypotheses(case: Case) -> None:
    ids = [h.id for g in ambiguity_groups(case) for h in g.hypotheses]
    assert sorted(ids) == sorted(h.id for h in case.hypotheses)
    assert sum(g.weight for g in ambiguity_groups(case)) == pytest.approx(1)


@settings(deadline=None)
@given(cases)
def test_groups_are_the_connected_components_of_pairs_that_no_check_separates(case: Case) -> None:
    graph = networkx.Graph()
    graph.add_nodes_from(h.id for h in case.hypotheses)
    for a, b in combinations([h.id for h in case.hypotheses], 2):
        if not any(c.sees[a] != c.sees[b] for c in case.checks):
            graph.add_edge(a, b)
    components = {frozenset(c) for c in networkx.connected_components(graph)}
    assert {frozenset(h.id for h in g.hypotheses) for g in ambiguity_groups(case)} == components


@settings(deadline=None)
@given(cases)
def test_the_matrix_holds_what_each_check_shows_for_each_hypothesis(case: Case) -> None:
    found = matrix(case)
    cells = {(h, c): v for h, row in zip(found.hypotheses, found.rows) for c, v in zip(found.checks, row)}
    assert cells == {(h.id, c.id): c.sees[h.id] for h in case.hypotheses for c in case.checks}


@settings(deadline=None)
@given(cases)
def test_one_check_more_splits_groups_and_never_lowers_a_fraction(case: Case) -> None:
    for number in range(len(case.checks)):
        fewer = ambiguity_groups(replace(case, checks=case.checks[:number]))
        more = ambiguity_groups(replace(case, checks=case.checks[: number + 1]))
        wide = [{h.id for h in g.hypotheses} for g in fewer]
        assert all(any({h.id for h in g.hypotheses} <= w for w in wide) for g in more)
        for most in (1, 2, 3):
            assert isolated(more, most) >= isolated(fewer, most) - 1e-9
            assert isolated_to_remedies(more, most) >= isolated_to_remedies(fewer, most) - 1e-9


@settings(deadline=None)
@given(cases)
def test_fractions_rise_with_the_size_to_one_and_remedies_are_never_below_causes(case: Case) -> None:
    groups = ambiguity_groups(case)
    for most in range(1, 9):
        assert isolated(groups, most) <= isolated(groups, most + 1) + 1e-9
        assert isolated(groups, most) <= isolated_to_remedies(groups, most) + 1e-9
    assert isolated(groups, len(case.hypotheses)) == 1


@settings(deadline=None)
@given(cases)
def test_a_silent_check_can_go_without_any_loss(case: Case) -> None:
    kept = replace(case, checks=tuple(c for c in case.checks if c.id not in silent_checks(case)))
    assert _ids(kept) == _ids(case)


def _ids(case: Case) -> list[list[str]]:
    return [[h.id for h in g.hypotheses] for g in ambiguity_groups(case)]
