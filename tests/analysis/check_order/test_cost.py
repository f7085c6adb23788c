"""The case that can be reckoned by hand, in bits: dull is bit 0, lint bit 1, gear bit 2; the plate, shared, is bit 0."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.analysis.check_order import Case, Check, Hypothesis
from generator.analysis.check_order.cost import Action, Mass, board
from generator.analysis.machine import Machine, MachinePart, MachineSetting, Remedy
from tests.analysis.check_order.order_hand_case import CASE, DULL, GEAR, LINT, MACHINE

CLEAN = Action("clean", True, 3 + 2, 0b1, 0b010, (0b101,))
NEEDLE = Action("renew-needle", True, 1 + 2, 0, 0b001, (0b110,))
TRIED = Action("trial", False, 2, 0, 0b001, (0b110,))
WATCHED = Action("watch", False, 1, 0b1, 0, (0b100, 0b011))


def test_the_case_in_bits() -> None:
    """The gear, 8, is in the minutes of the one action that needs it; the plate, 2, is left for three to share."""
    bits = board(CASE)
    assert bits.groups == ((DULL,), (LINT,), (GEAR,))
    assert (bits.parts, bits.opening.weights) == ({"plate": 1}, (2,))
    assert bits.mass.weights == pytest.approx((0.5, 0.3, 0.2))
    assert bits.actions == (CLEAN, Action("renew-gear", True, 8 + 2, 0b1, 0b100, (0b011,)), NEEDLE, TRIED, WATCHED)
    assert bits.all == 0b111


def test_what_is_open_already_is_neither_paid_nor_on_the_board() -> None:
    bits = board(CASE, open_parts=["plate"])
    assert (bits.parts, bits.opening.weights) == ({}, ())
    assert [(a.id, a.minutes, a.parts) for a in bits.actions] == [
        ("clean", 5, 0), ("renew-gear", 10, 0), ("renew-needle", 3, 0), ("trial", 2, 0), ("watch", 1, 0),
    ]  # fmt: skip
    assert {a.id: a.minutes for a in board(CASE, open_parts=["plate", "gear"]).actions}["renew-gear"] == 2


def test_with_less_left_shares_are_scaled_and_what_tells_nothing_goes() -> None:
    """Lint and dull, in the order of the case: watch shows both turn, so it is gone, and the plate is clean's alone."""
    bits = board(CASE, ["lint", "dull"])
    assert bits.groups == ((DULL,), (LINT,))
    assert bits.mass.weights == pytest.approx((5 / 8, 3 / 8))
    assert bits.parts == {}
    assert bits.actions == (
        Action("clean", True, 2 + 3 + 2, 0, 0b10, (0b01,)),
        Action("renew-needle", True, 3, 0, 0b01, (0b10,)),
        Action("trial", False, 2, 0, 0b01, (0b10,)),
    )


def test_one_left_is_ended_by_its_remedy_and_by_a_trial_that_cures_it() -> None:
    """Neither leaves anything; watch, that shows what is known, is gone."""
    assert board(CASE, ["dull"]).actions == (replace(NEEDLE, classes=(), ends=1), replace(TRIED, classes=(), ends=1))


def _look(id: str, *reach: str) -> Check:
    return Check(id, 1, reach, ("one", "other"), {"dull": 0, "lint": 1})


def test_parts_always_needed_together_share_a_bit_and_one_that_takes_nothing_has_none() -> None:
    """Lid and cap, 1 and 3, both for a and b; the pin, nothing, for all three; the bar, 1, for b and c; the key, 7, for c alone."""
    parts = {
        "lid": MachinePart("lid", (), 0.5, 0.5), "cap": MachinePart("cap", ("lid",), 1, 2), "pin": MachinePart("pin"),
        "bar": MachinePart("bar", (), 1, 0), "key": MachinePart("key", (), 3, 4),
    }  # fmt: skip
    looks = (_look("a", "cap", "pin"), _look("b", "cap", "pin", "bar"), _look("c", "bar", "key", "pin"))
    bits = board(Case((DULL, replace(LINT, remedy=Remedy("clean"))), looks, Machine(parts), 2))
    bit = bits.parts
    assert bit.keys() == {"lid", "cap", "bar"}
    assert bit["lid"] == bit["cap"] != bit["bar"]
    assert {bits.opening[bit["lid"]], bits.opening[bit["bar"]]} == {1 + 3, 1}
    assert bits.opening[bit["lid"]] == 4
    both = bit["lid"] | bit["bar"]
    assert both == 0b11
    checks = {a.id: (a.minutes, a.parts) for a in bits.actions if not a.is_remedy}
    assert checks == {"a": (1, bit["lid"]), "b": (1, both), "c": (1 + 7, bit["bar"])}


def test_what_no_check_separates_and_one_remedy_cures_shares_a_bit() -> None:
    """Two dull needles show the same and are renewed the same; a bent one shows something else; lint has another remedy."""
    blunt = replace(DULL, id="blunt", share=0.1)
    bent = replace(DULL, id="bent", share=0.1)
    look = Check("look", 1, (), ("dull", "bent"), {"dull": 0, "blunt": 0, "lint": 0, "bent": 1})
    bits = board(Case((replace(DULL, share=0.2), LINT, blunt, bent), (look,), MACHINE, 0))
    assert [[h.id for h in group] for group in bits.groups] == [["dull", "blunt"], ["lint"], ["bent"]]
    assert bits.mass.weights == pytest.approx((3 / 7, 3 / 7, 1 / 7))
    assert [(a.id, a.ends, a.classes) for a in bits.actions] == [
        ("clean", 0b010, (0b101,)), ("renew-needle", 0b101, (0b010,)), ("look", 0, (0b011, 0b100)),
    ]  # fmt: skip


def test_a_remedy_takes_the_settings_that_it_upsets_and_the_sew() -> None:
    machine = Machine({"gear": MachinePart("gear", (), 4, 4, ("timing",))}, {"timing": MachineSetting("timing", 20)})
    (only,) = board(Case((GEAR,), (), machine, 2)).actions
    assert only.minutes == 8 + 20 + 2


def test_a_check_and_a_remedy_may_have_the_same_id() -> None:
    machine = Machine({"lid": MachinePart("lid", (), 1, 1), "cap": MachinePart("cap", (), 3, 3)})
    same, other = Hypothesis("h", (), 1, Remedy("same", reach=("lid",))), Hypothesis("other", (), 1, Remedy("other"))
    look = Check("same", 1, ("cap",), ("one", "other"), {"h": 0, "other": 1})
    bits = board(Case((same, other), (look,), machine, 0))
    assert [(a.id, a.is_remedy, a.minutes) for a in bits.actions] == [("other", True, 0), ("same", True, 2), ("same", False, 1 + 6)]


def test_the_minutes_of_an_action_from_here_leave_out_what_is_open() -> None:
    bits = board(CASE)
    assert [bits.cost(WATCHED, opened) for opened in (0, 1)] == [1 + 2, 1]
    assert bits.cost(NEEDLE, 0) == 3


def test_a_mass_is_the_sum_of_the_weights_of_its_bits() -> None:
    mass = Mass((1.0, 2.0, 4.0, 8.0))
    assert [mass[bits] for bits in range(16)] == list(range(16))
    assert mass[0] == 0 and Mass((5.0,))[1] == 5


def test_an_action_tells_if_none_of_what_it_shows_is_all_that_is_left() -> None:
    assert [bits for bits in range(1, 8) if WATCHED.tells(bits)] == [0b101, 0b110, 0b111]
    assert [bits for bits in range(1, 8) if NEEDLE.tells(bits)] == [0b001, 0b011, 0b101, 0b111]


def test_what_is_shown_is_the_class_and_those_that_end_go_each_their_own_way() -> None:
    action = Action("a", False, 1, 0, 0b10011, (0b00100, 0b101000))
    shown = action.shown(6)
    assert [shown[bit] for bit in (2, 3, 5)] == [0, 1, 1]
    assert len({shown[bit] for bit in (0, 1, 4)} - {0, 1}) == 3


@pytest.mark.parametrize(
    ("left", "opened", "said"),
    [
        (["worn", "dull"], [], "'worn' is no hypothesis of the case."),
        ([], [], "No hypothesis is left to look for."),
        (None, ["lid", "plate"], "'lid' is no part of the machine."),
    ],
)
def test_a_place_that_is_not_on_the_board_is_refused(left: list[str] | None, opened: list[str], said: str) -> None:
    with pytest.raises(ValueError) as refused:
        board(CASE, left, opened)
    assert str(refused.value) == said


def test_bits_stand_in_the_order_of_the_case_whatever_the_order_of_what_is_left() -> None:
    """Lint is bit 0 and gear bit 1: watch shows the gear first."""
    assert board(CASE, ["gear", "lint"]).actions[-1] == Action("watch", False, 1, 0b1, 0, (0b10, 0b01))
