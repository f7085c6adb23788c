"""Every policy keeps the laws of the bench: proof, safety, evidence, no row dropped, nothing twice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order.case import Case, Check, Hypothesis
from generator.analysis.doubt.case import Doubt, Reading, plain
from generator.analysis.doubt.grow import Grower
from generator.analysis.doubt.next_step import next_move
from generator.analysis.doubt.order import order, price_of_caution
from generator.analysis.doubt.outlook import outlook
from generator.analysis.doubt.rules import record_order
from generator.analysis.doubt.standing import allowed_checks, allowed_remedies, not_cured, seen, start
from generator.analysis.doubt.table import Table
from generator.analysis.machine import Machine, Remedy
from generator.analysis.policy import (
    CheckNode,
    RemedyNode,
    StopNode,
    expected_minutes,
    nodes,
    to_json,
)
from tests.analysis.doubt.doubt_cases import bench_doubt, small_doubt
from tests.analysis.doubt.doubt_habit import likeliest_first
from tests.analysis.doubt.doubt_laws import broken

RULES = (next_move, record_order, likeliest_first)


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_keeps_the_laws(rule) -> None:
    for number in range(200):
        doubt = small_doubt(number)
        table = Table(doubt)
        assert broken(doubt, to_json(Grower(table, rule).grow(start(table)))) == []


def test_every_plan_keeps_the_laws() -> None:
    for number in range(200):
        doubt = small_doubt(number)
        assert broken(doubt, to_json(order(doubt).policy)) == []
    for number in range(6):
        doubt = bench_doubt(number, 16, 14)
        found = order(doubt)
        assert not found.exact
        assert broken(doubt, to_json(found.policy)) == []


def test_the_checker_sees_a_broken_law() -> None:
    seen = 0
    for number in range(200):
        doubt = small_doubt(number)
        remedies = frozenset(h.remedy.id for h in doubt.case.hypotheses)
        careless = to_json(order(replace(doubt, dear=frozenset(), no_sign=frozenset(), before=(), safe=frozenset(), lost=())).policy)
        strict = replace(doubt, dear=remedies, no_sign=frozenset())
        seen += any("nothing has proved" in b for b in broken(strict, careless))
        seen += any("before" in b or "lost" in b for b in broken(doubt, careless))
    assert seen > 50


def test_minutes_add_up_from_the_written_policy() -> None:
    for number in range(4):
        found = order(bench_doubt(number, 16, 14))
        share, minutes = _added(to_json(found.policy))
        assert share == pytest.approx(1)
        assert minutes == pytest.approx(found.expected_minutes)
        assert found.expected_minutes == pytest.approx(expected_minutes(found.policy))
        assert 0 < found.lower_bound < found.expected_minutes


def _added(node: dict | None) -> tuple[float, float]:
    """By the published keys alone."""
    if node is None:
        return 0.0, 0.0
    if "stop" in node or "beyond" in node:
        return node["share"], node["share"] * node.get("beyond", node.get("minutes"))
    if "remedy" in node:
        share, below = _added(node["else"])
        share += node["cured_share"]
    else:
        share = sum(o["share"] for o in node["outcomes"])
        below = sum(_added(o["then"])[1] for o in node["outcomes"])
    return share, share * node["minutes"] + below


MOTOR = Hypothesis("motor-worn", ("motor-worn",), 2, Remedy("renew:motor", minutes=41))
BELT = Hypothesis("belt-loose", ("belt-loose",), 3, Remedy("set:belt", minutes=5))
LOOK_BELT = Check("look-belt", 1, (), ("loose", "right"), {"motor-worn": 1, "belt-loose": 0})
LOOK_MOTOR = Check("look-motor", 0.5, (), ("brushes worn", "brushes good"), {"motor-worn": 0, "belt-loose": 1})


def _slow(*checks: Check, **more: object) -> Doubt:
    dear = frozenset({"renew:motor"})
    return plain(Case((MOTOR, BELT), checks, Machine(), 2), dear=dear, **more)


def test_a_right_belt_does_not_renew_the_motor_while_a_look_at_the_motor_is_to_be_had() -> None:
    policy = order(_slow(LOOK_BELT, LOOK_MOTOR)).policy
    assert {n.remedy for n in nodes(policy) if isinstance(n, RemedyNode)} == {"renew:motor", "set:belt"}
    assert broken(_slow(LOOK_BELT, LOOK_MOTOR), to_json(policy)) == []


def test_where_nothing_can_prove_a_dear_remedy_the_order_stops_and_names_it() -> None:
    policy = order(_slow(LOOK_BELT)).policy
    assert all(n.remedy != "renew:motor" for n in nodes(policy) if isinstance(n, RemedyNode))
    assert any("renew:motor" in n.unproved for n in nodes(policy) if isinstance(n, StopNode))


def test_a_record_that_says_no_sign_lets_the_dear_remedy_be_done() -> None:
    policy = order(_slow(LOOK_BELT, no_sign=frozenset({"renew:motor"}))).policy
    assert any(n.remedy == "renew:motor" for n in nodes(policy) if isinstance(n, RemedyNode))


def test_the_price_of_caution_is_what_the_proof_adds() -> None:
    wanting = _slow(LOOK_BELT)
    assert price_of_caution(wanting, order(wanting)) > 0
    excused = _slow(LOOK_BELT, no_sign=frozenset({"renew:motor"}))
    assert price_of_caution(excused, order(excused)) == 0


def test_the_unlisted_cause_ends_every_order_in_stopping_to_think() -> None:
    for number in range(100):
        doubt = small_doubt(number)
        if doubt.unlisted:
            assert any(isinstance(n, StopNode) for n in nodes(order(doubt).policy))


NEEDLE = Hypothesis("needle-dull", ("needle-dull",), 1, Remedy("renew:needle", minutes=3))
TRY = Check("try-needle", 1.5, (), ("cured", "still there"), {"needle-dull": 0}, frozenset({0}))


def test_a_trial_never_leads_to_the_same_remedy_again() -> None:
    """And where one cause is left and the trial takes fewer minutes, the trial is the remedy."""
    policy = order(plain(Case((NEEDLE,), (TRY,), Machine(), 2))).policy
    assert [n.check for n in nodes(policy) if isinstance(n, CheckNode)] == ["try-needle"]
    assert not [n for n in nodes(policy) if isinstance(n, RemedyNode)]


def test_a_remedy_done_is_not_tried_again_by_a_trial() -> None:
    slow_trial = replace(TRY, minutes=9)
    policy = order(plain(Case((NEEDLE,), (slow_trial,), Machine(), 2))).policy
    assert isinstance(policy, RemedyNode) and isinstance(policy.otherwise, StopNode)


def test_what_a_check_is_said_to_do_is_not_proposed_again() -> None:
    other = Hypothesis("needle-bent", ("needle-bent",), 1, Remedy("renew:needle", minutes=3))
    trial = replace(TRY, sees={"needle-dull": 0, "needle-bent": 1})
    case = Case((NEEDLE, other), (trial,), Machine(), 2)
    told = Doubt(case, {"try-needle": Reading(1, (0.95, 0.95), frozenset({"renew:needle"}))})
    table = Table(told)
    untold = Table(replace(told, readings={"try-needle": Reading(1, (0.95, 0.95))}))
    assert allowed_remedies(untold, seen(untold, start(untold), 0, 1)) == [0]
    assert allowed_remedies(table, seen(table, start(table), 0, 1)) == []


def test_an_electrical_look_comes_before_cheaper_mechanical_ones() -> None:
    slow_look = replace(LOOK_MOTOR, minutes=20)
    assert order(_slow(LOOK_BELT, slow_look)).policy.check == "look-belt"
    assert order(_slow(LOOK_BELT, slow_look, before=("look-motor",))).policy.check == "look-motor"


def test_nothing_is_powered_while_a_look_that_must_be_sound_shows_a_fault() -> None:
    """The burnt motor is mended first, and nothing is looked at under power until it is."""
    doubt = _slow(LOOK_BELT, LOOK_MOTOR, before=("look-motor",), safe=frozenset({"look-motor"}), powered=frozenset({"look-belt"}))
    policy = order(doubt).policy
    burnt = policy.branches[0].then
    assert isinstance(burnt, RemedyNode) and burnt.remedy == "renew:motor"
    unsafe = replace(doubt, safe=frozenset())
    table = Table(doubt)
    dark = seen(table, start(table), 1, 0)
    assert allowed_checks(table, dark) == [] and allowed_remedies(table, dark) == [0]
    free = Table(unsafe)
    lit = seen(free, start(free), 1, 0)
    assert allowed_checks(free, lit) == [0]
    assert outlook(table, dark) > outlook(free, lit)  # what waits for power is not counted on


def test_power_waits_until_all_that_may_mend_a_fault_is_done_in_vain() -> None:
    """A wheel still held after the first remedy is still held: the next one comes before any power."""
    either = replace(LOOK_MOTOR, sees={"motor-worn": 0, "belt-loose": 0})
    doubt = _slow(LOOK_BELT, either, before=("look-motor",), safe=frozenset({"look-motor"}), powered=frozenset({"look-belt"}))
    table = Table(doubt)
    dark = seen(table, start(table), 1, 0)
    first, then = allowed_remedies(table, dark)
    still = not_cured(table, dark, first)
    assert allowed_checks(table, still) == [] and allowed_remedies(table, still) == [then]
    assert allowed_checks(table, not_cured(table, still, then)) == [0]


def test_evidence_is_read_before_it_is_lost() -> None:
    doubt = _slow(LOOK_BELT, LOOK_MOTOR, lost=(("look-belt", "look-motor"), ("set:belt", "look-motor")))
    assert order(doubt).policy.check == "look-motor"
